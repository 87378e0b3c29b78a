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
  return html`<p>
    <label
      >${label}<br /><input
        name="${name}"
        value="${value}"
        autocomplete="${autocomplete}"
        maxlength="80"
        ${required ? html`required` : null}
        ${pointer(name, entered)}
    /></label>
    ${mistake(name, entered)}
  </p>`;
}

/** A secret is never sent back, so it is typed anew. */
export function secretField(name: string, label: string, entered = NOTHING_ENTERED): Html {
  return html`<p>
    <label
      >${label}<br /><input
        type="password"
        name="${name}"
        autocomplete="current-password"
        maxlength="256"
        required
        ${pointer(name, entered)}
    /></label>
    ${mistake(name, entered)}
  </p>`;
}

export function newSecretField(name: string, label: string, entered = NOTHING_ENTERED): Html {
  return html`<p>
    <label
      >${label}, at least 15 characters<br /><input
        type="password"
        name="${name}"
        autocomplete="new-password"
        minlength="15"
        maxlength="256"
        required
        ${pointer(name, entered)}
    /></label>
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
