import { html, type Html } from '../html.js';

/** What was expected of a field, by its name. */
export type Mistakes = Readonly<Record<string, string>>;

/** A form that comes back: what was typed into it, and what is wrong with it. */
export interface Entered {
  readonly values: Readonly<Record<string, string>>;
  readonly mistakes: Mistakes;
}

export const NOTHING_ENTERED: Entered = { values: {}, mistakes: {} };

interface TextField {
  readonly name: string;
  readonly label: string;
  /** As browsers know it. */
  readonly autocomplete: string;
  readonly required: boolean;
}

export function textField({ name, label, autocomplete, required }: TextField, entered = NOTHING_ENTERED): Html {
  const value = entered.values[name] ?? '';
  const rules = html`value="${value}" autocomplete="${autocomplete}" maxlength="80" ${required ? html`required` : null}`;
  return field(label, name, rules, entered);
}

/** A secret is never sent back, so it is typed anew. */
export function secretField(name: string, label: string, entered = NOTHING_ENTERED): Html {
  return field(label, name, html`type="password" autocomplete="current-password" maxlength="256" required`, entered);
}

export function newSecretField(name: string, label: string, entered = NOTHING_ENTERED): Html {
  const rules = html`type="password" autocomplete="new-password" minlength="15" maxlength="256" required`;
  return field(`${label}, at least 15 characters`, name, rules, entered);
}

/** @param rules - what the browser is to hold the field to, as attributes */
function field(label: string, name: string, rules: Html, entered: Entered): Html {
  return html`<p>
    <label>${label}<br /><input name="${name}" ${rules} ${pointer(name, entered)} /></label>
    ${mistake(name, entered)}
  </p>`;
}

function pointer(name: string, { mistakes }: Entered): Html | null {
  return mistakes[name] === undefined ? null : html`aria-invalid="true" aria-describedby="${name}-mistake"`;
}

function mistake(name: string, { mistakes }: Entered): Html | null {
  const expected = mistakes[name];
  return expected === undefined ? null : html`<strong id="${name}-mistake">Needs ${expected}.</strong>`;
}
