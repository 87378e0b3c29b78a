import { html, type Html } from '../html.js';
import { browserName } from './browser-name.js';
import { newSecretField, secretField, textField, type Entered } from './entered-form.js';
import { page, type PageFrame } from '../page/page.js';
import { WITHHELD } from '../report-names.js';

/** What the page of a person who has signed in shows. */
export interface AccountView {
  readonly csrfToken: string;
  readonly elsewhere: boolean;
  readonly signInName: string | null;
  readonly clan: { readonly id: string; readonly name: string; readonly role: string } | null;
  readonly otherClans: readonly { readonly id: string; readonly name: string; readonly role: string }[];
  /** The newest of the clan that the session is in; null without one. */
  readonly reports: readonly ReportView[] | null;
  /** Of the clan that the session is in. */
  readonly members: readonly {
    readonly id: string;
    readonly name: string;
    readonly role: string;
    readonly joinedAt: string;
    readonly own: boolean;
  }[];
  readonly mayManage: boolean;
  readonly sessions: readonly {
    readonly id: string;
    readonly userAgent: string | null;
    readonly createdAt: string;
    readonly lastUsedAt: string;
    readonly current: boolean;
  }[];
  /** Null for who makes none. */
  readonly keys: readonly KeyView[] | null;
  /** Null for who invites nobody. */
  readonly invitations: readonly InvitationView[] | null;
  readonly mayGive: readonly Scope[];
  /** A key or a link, shown this once. */
  readonly secret: { readonly what: string; readonly text: string } | null;
  readonly problem: string | null;
}

/** What a key may do. */
type Scope = keyof typeof SCOPES;

const SCOPES = {
  profiles: 'reads what is computed of players: figures, answers and reports',
  read: 'reads the archive too, play by play',
  write: "charts games and keeps the clan's records",
  manage: 'does everything: members, other keys and publishing too',
};

interface ReportView {
  readonly id: string;
  readonly opponent: string | null;
  readonly event: string | null;
  readonly madeAt: string;
}

interface KeyView {
  readonly id: string;
  readonly name: string;
  readonly prefix: string;
  readonly scopes: readonly string[];
  readonly expiresAt: string | null;
  readonly lastUsedAt: string | null;
}

interface InvitationView {
  readonly id: string;
  readonly role: string;
  readonly note: string | null;
  readonly prefix: string;
  readonly expiresAt: string;
}

export function accountPage(view: AccountView, frame: PageFrame): string {
  const body = html`<main>
    <h1>My account</h1>
    ${problemNote(view.problem)} ${secretNote(view.secret)}
    <p>
      ${view.signInName === null ? html`Signed in` : html`Signed in as <strong>${view.signInName}</strong>`}${clanWords(view)}
    </p>
    ${form('sign-out', view, html``, 'Sign out')} ${reports(view)} ${clans(view)} ${members(view)} ${sessions(view)}
    ${keys(view)} ${invitations(view)}
    ${view.elsewhere ? form('link-elsewhere', view, html``, 'Sign in through your provider from now on') : html``}
    ${view.signInName === null ? html`` : passphrase(view)} ${erasure(view)} ${RULES}
  </main>`;
  return page('My account', body, frame);
}

/** On the way to the provider. */
export function leavingPage(address: string, frame: PageFrame): string {
  const body = html`<main>
    <h1>On to your provider</h1>
    <p><a href="${address}">Go on and sign in there</a>. You come back by yourself.</p>
  </main>`;
  return page('On to your provider', body, frame);
}

export interface SignInView {
  /** Nobody has a clan here yet, so whoever comes makes the first. */
  readonly fresh: boolean;
  /** Whether people may also sign in through a provider. */
  readonly elsewhere: boolean;
  readonly entered: Entered;
  /** Where to go on after that. */
  readonly next: string | null;
  readonly problem: string | null;
}

export function signInPage(view: SignInView, frame: PageFrame): string {
  const { fresh, elsewhere, entered, next, problem } = view;
  const title = fresh ? 'Make the first clan' : 'Sign in';
  const body = html`<main>
    <h1>${title}</h1>
    ${problemNote(problem)} ${fresh ? signUpForm(entered) : signInForm(entered, next)}
    ${fresh ? null : html`<p>New here? You join by an invitation link, which an owner of the clan gives you.</p>`}
    ${elsewhere && !fresh ? html`<p><a href="/account/elsewhere">Sign in through your provider</a></p>` : html``}
  </main>`;
  return page(title, body, frame);
}

export interface InvitationPageView {
  readonly invitation: string;
  readonly clanName: string;
  readonly role: string;
  /** Of the session, or null for who has not signed in. */
  readonly csrfToken: string | null;
  readonly elsewhere: boolean;
  readonly entered: Entered;
  readonly problem: string | null;
}

export function invitationPage(view: InvitationPageView, frame: PageFrame): string {
  const { invitation, clanName, role, csrfToken, elsewhere, entered, problem } = view;
  const hidden = html`<input type="hidden" name="invitation" value="${invitation}" />`;
  const body = html`<main>
    <h1>Join ${clanName}</h1>
    ${problemNote(problem)}
    <p>You are invited as <strong>${role}</strong>. The invitation works once.</p>
    ${
      csrfToken === null
        ? html`<h2>As somebody new</h2>
            <form method="post" action="/account/join">
              ${hidden} ${textField(NAME_IN_CLAN, entered)} ${textField(NEW_SIGN_IN_NAME, entered)}
              ${newSecretField('passphrase', 'Passphrase', entered)}
              <p><button>Join</button></p>
            </form>
            ${
              elsewhere
                ? html`<form method="post" action="/account/join-elsewhere">
                    ${hidden} ${textField(NAME_IN_CLAN)}
                    <p><button>Join through your provider</button></p>
                  </form>`
                : html``
            }
            <h2>Already have an account here?</h2>
            <p><a href="/account">Sign in</a>, then open this link again.</p>`
        : html`<form method="post" action="/account/join-as">
            <input type="hidden" name="csrfToken" value="${csrfToken}" />
            ${hidden} ${textField(NAME_IN_CLAN, entered)}
            <p><button>Join</button></p>
          </form>`
    }
  </main>`;
  return page(`Join ${clanName}`, body, frame);
}

/** For what cannot be shown: an invitation that does not work, for instance. */
export function refusalPage(title: string, detail: string, frame: PageFrame): string {
  return page(
    title,
    html`<main>
      <h1>${title}</h1>
      <p>${detail}</p>
      <p><a href="/account">My account</a></p>
    </main>`,
    frame,
  );
}

const NAME_IN_CLAN = { name: 'name', label: 'Your name in the clan', autocomplete: 'nickname', required: true };
const NEW_SIGN_IN_NAME = {
  ...{ name: 'signInName', label: 'Name to sign in with' },
  ...{ autocomplete: 'username', required: true },
};
const SIGN_IN_NAME = { ...NEW_SIGN_IN_NAME, label: 'Name' };
const CLAN_NAME = { name: 'clanName', label: 'Name of the clan', autocomplete: 'organization', required: true };
const KEY_NAME = { name: 'name', label: 'What it is for', autocomplete: 'off', required: true };
const NOTE = { name: 'note', label: 'For whom', autocomplete: 'off', required: false };

const RULES = html`<p class="note">
  An event's own rules say whether aids may be used during play. Footage and data of other people are used under the
  event's rules and the law of the place.
</p>`;

function problemNote(problem: string | null): Html {
  return problem === null ? html`` : html`<p role="alert"><strong>That did not work:</strong> ${problem}</p>`;
}

function secretNote(secret: AccountView['secret']): Html {
  if (secret === null) return html``;
  return html`<div role="status">
    <p><strong>${secret.what}</strong> It is shown this once and never again:</p>
    <p><code class="secret">${secret.text}</code></p>
  </div>`;
}

function clanWords({ clan }: AccountView): Html {
  if (clan === null) return html`, in no clan now.`;
  return html`, in <strong>${clan.name}</strong> as ${clan.role}.`;
}

function reports(view: AccountView): Html {
  if (view.reports === null) return html``;
  const items = view.reports.map(({ id, opponent, event, madeAt }) => {
    const title = `${opponent ?? WITHHELD}${event === null ? '' : `, ${event}`}`;
    const path = `/v1/round-reports/${id}`;
    return html`<li>
      <a href="${path}">${title}</a>
      <span class="what"
        >made ${when(madeAt)}, <a href="${path}/report-card" aria-label="report card: ${title}">report card</a></span
      >
    </li>`;
  });
  return html`<h2>Round reports</h2>
    ${
      items.length === 0
        ? NO_REPORTS
        : html`<ul>
              ${items}
            </ul>
            ${MORE}`
    }`;
}

const MORE = html`<p class="note">
  The <a href="/docs">documentation of the API</a> says what else can be asked, and how a report is made.
</p>`;

const NO_REPORTS = html`<p>
  None yet. One is made by <code>POST /v1/round-reports</code> once an event and charted games are there; the
  <a href="/docs">documentation of the API</a> shows how.
</p>`;

function clans(view: AccountView): Html {
  const { clan, otherClans } = view;
  return html`<h2>Clans</h2>
    ${otherClans.map(
      ({ id, name, role }) =>
        html`<p>${name} (${role})</p>
          ${form('clan', view, field('clanId', id), `Go on in ${name}`)}`,
    )}
    ${clan === null ? html`` : form('leave', view, field('clanId', clan.id), `Leave ${clan.name}`)}
    <p class="note">
      When you leave a clan, the keys that you made end and what only you could read goes. What you wrote for the clan
      stays.
    </p>`;
}

function members(view: AccountView): Html {
  if (view.members.length === 0) return html``;
  const rows = view.members.map(({ id, name, role, joinedAt, own }) => {
    const removal = own ? html`` : form('remove-member', view, field('memberId', id), 'Remove');
    const change = own ? role : form('change-role', view, roleFields(id, name, role), 'Change');
    const cells = view.mayManage ? [removal, change] : [role];
    return { head: html`${name}${own ? ' (you)' : ''}`, cells: [...cells, when(joinedAt)] };
  });
  return html`<h2>Who is in the clan</h2>
    ${table(view.mayManage ? ['Member', 'Remove', 'Role', 'Since'] : ['Member', 'Role', 'Since'], rows)}
    ${
      view.mayManage
        ? html`<p class="note">Whoever is removed is signed out of the clan, and the keys that the member made end.</p>`
        : html``
    }`;
}

function roleFields(memberId: string, name: string, role: string): Html {
  return html`${field('memberId', memberId)}<select name="role" aria-label="Role of ${name}">
      ${roleOptions(role)}
    </select>`;
}

function roleOptions(chosen: string): Html[] {
  return ['reader', 'analyst', 'owner'].map((role) =>
    role === chosen ? html`<option selected>${role}</option>` : html`<option>${role}</option>`,
  );
}

function sessions(view: AccountView): Html {
  const rows = view.sessions.map(({ id, userAgent, createdAt, lastUsedAt, current }) => ({
    head: html`${browserName(userAgent)}`,
    cells: [
      current ? 'this one' : form('end-session', view, field('sessionId', id), 'End it'),
      when(createdAt),
      when(lastUsedAt),
    ],
  }));
  return html`<h2>Where you have signed in</h2>
    ${table(['Browser', 'End', 'Since', 'Last used'], rows)}`;
}

function keys(view: AccountView): Html {
  if (view.keys === null) return html``;
  const rows = view.keys.map(({ id, name, prefix, scopes, expiresAt, lastUsedAt }) => ({
    head: html`${name}<span class="what">${prefix}…</span>`,
    cells: [
      form('revoke-key', view, field('keyId', id), 'Revoke'),
      scopes.join(', '),
      lastUsedAt === null ? 'never' : when(lastUsedAt),
      expiresAt === null ? 'never' : when(expiresAt),
    ],
  }));
  const scopes = view.mayGive.map(
    (scope) =>
      html`<p>
        <label
          ><input type="checkbox" name="scopes" value="${scope}" aria-describedby="scope-${scope}" /> ${scope}</label
        >
        <span class="what" id="scope-${scope}">${SCOPES[scope]}</span>
      </p>`,
  );
  const inputs = html`${textField(KEY_NAME)}
    <fieldset>
      <legend>What it may do</legend>
      ${scopes}
    </fieldset>`;
  return html`<h2>Keys for programs</h2>
    ${rows.length === 0 ? html`<p>None.</p>` : table(['Key', 'Revoke', 'Scopes', 'Last used', 'Ends'], rows)}
    <h3>Make a key</h3>
    ${form('make-key', view, inputs, 'Make a key')}`;
}

function invitations(view: AccountView): Html {
  if (view.invitations === null) return html``;
  const rows = view.invitations.map(({ id, role, note, prefix, expiresAt }) => ({
    head: html`${note ?? 'anybody'}<span class="what">${prefix}…</span>`,
    cells: [form('withdraw', view, field('invitationId', id), 'Withdraw'), role, when(expiresAt)],
  }));
  const inputs = html`${textField(NOTE)}
    <p>
      <label
        >Role
        <select name="role">
          ${roleOptions('reader')}
        </select></label
      >
    </p>`;
  return html`<h2>Invitations</h2>
    ${rows.length === 0 ? html`<p>None is open.</p>` : table(['For', 'Withdraw', 'Role', 'Until'], rows)}
    <h3>Invite somebody</h3>
    ${form('invite', view, inputs, 'Make a link')}`;
}

function erasure(view: AccountView): Html {
  const again = secretField('passphrase', 'Passphrase');
  return html`<h2>Leave for good</h2>
    <p>
      Your name, how you sign in and what only you could read are erased. What you wrote for a clan stays there under a
      pseudonym. It cannot be undone. Hand over first what nobody else owns.
    </p>
    ${form('erase', view, view.signInName === null ? html`` : again, 'Erase me')}`;
}

function passphrase(view: AccountView): Html {
  const inputs = html`${secretField('passphrase', 'Passphrase now')}
  ${newSecretField('newPassphrase', 'New passphrase')}`;
  return html`<h2>Passphrase</h2>
    ${form('passphrase', view, inputs, 'Change it and end all other sessions')}`;
}

function signInForm(entered: Entered, next: string | null): Html {
  return html`<form method="post" action="/account/sign-in">
    ${next === null ? null : field('next', next)} ${textField(SIGN_IN_NAME, entered)}
    ${secretField('passphrase', 'Passphrase', entered)}
    <p><button>Sign in</button></p>
  </form>`;
}

function signUpForm(entered: Entered): Html {
  return html`<p>This service has no clan yet. Whoever makes the first one owns it; others come by invitation.</p>
    <form method="post" action="/account/sign-up">
      ${textField(CLAN_NAME, entered)} ${textField(NAME_IN_CLAN, entered)} ${textField(NEW_SIGN_IN_NAME, entered)}
      ${newSecretField('passphrase', 'Passphrase', entered)}
      <p><button>Make the clan</button></p>
    </form>`;
}

function form(action: string, { csrfToken }: AccountView, inputs: Html, button: string): Html {
  return html`<form method="post" action="/account/${action}">
    ${field('csrfToken', csrfToken)} ${inputs}
    <p><button>${button}</button></p>
  </form>`;
}

function field(name: string, value: string): Html {
  return html`<input type="hidden" name="${name}" value="${value}" />`;
}

interface Row {
  readonly head: Html;
  readonly cells: readonly (Html | string)[];
}

/** What can be done stands second, so that it is in view on a screen that is too narrow for the rest. */
function table(headers: readonly string[], rows: readonly Row[]): Html {
  return html`<div class="scrolling" tabindex="0" role="region" aria-label="${headers[0] ?? ''}">
    <table class="stacking">
      <thead>
        <tr>
          ${headers.map((header) => html`<th scope="col">${header}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          ({ head, cells }) =>
            html`<tr>
              <th scope="row">${head}</th>
              ${cells.map((cell, place) => html`<td data-header="${headers[place + 1] ?? ''}">${cell}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}

/** To the minute, in universal time, and said so. */
function when(time: string): string {
  return `${time.slice(0, 10)} ${time.slice(11, 16)} UTC`;
}
