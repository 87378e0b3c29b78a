import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createServer, type AddressInfo } from 'node:net';
import { aClan, aMember } from '../support/factories.js';
import { CHEAP_PASSPHRASES } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let provider: ChildProcess;
let ours: string;

beforeAll(async () => {
  const [ourPort, providerPort] = [await freePort(), await freePort()];
  ours = `http://127.0.0.1:${ourPort}`;
  const back = `${ours}/account/elsewhere/callback`;
  const run = ['--import', '@swc-node/register/esm-register', 'test/support/openid-provider.ts'];
  provider = spawn(process.execPath, [...run, String(providerPort), back], { stdio: ['ignore', 'pipe', 'ignore'] });
  if (provider.stdout !== null) await once(provider.stdout, 'data');
  api = await startTestApi({
    passphrase: CHEAP_PASSPHRASES,
    openId: {
      issuer: `http://127.0.0.1:${providerPort}`,
      ...{ clientId: 'roundbook', clientSecret: 'a secret of the client', identitySecret: 'x'.repeat(32) },
    },
  });
  await api.app.listen(ourPort, '127.0.0.1');
});
afterAll(async () => {
  provider.kill();
  await api.close();
});

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  return port;
}

/** A browser without scripts that goes to both places: keeps cookies by place, and follows where it is sent. */
class Browser {
  private readonly cookies = new Map<string, string>();
  page = '';
  status = 0;
  address = '';

  with(cookie: string): this {
    const [name = '', value = ''] = cookie.split('=');
    this.cookies.set(`${new URL(ours).host} ${name}`, value);
    return this;
  }

  async go(address: string, form?: Record<string, string>, follow = true): Promise<this> {
    const url = new URL(address, this.address === '' ? ours : this.address);
    const cookie = [...this.cookies]
      .filter(([name]) => name.startsWith(`${url.host} `))
      .map(([name, value]) => `${name.split(' ')[1] ?? ''}=${value}`)
      .join('; ');
    const body = form === undefined ? null : new URLSearchParams(form);
    const response = await fetch(url, {
      ...{ method: form === undefined ? 'GET' : 'POST', body, redirect: 'manual', headers: { Cookie: cookie } },
    });
    for (const set of response.headers.getSetCookie()) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(set) ?? [];
      if (value === '') this.cookies.delete(`${url.host} ${name}`);
      else this.cookies.set(`${url.host} ${name}`, value);
    }
    this.address = url.href;
    this.status = response.status;
    this.page = await response.text();
    const location = response.headers.get('location');
    return location !== null && follow ? this.go(location) : this;
  }

  /** Sends the page's one form of that kind. */
  submit(action: RegExp, fields: Record<string, string> = {}): Promise<this> {
    const forms = [...this.page.matchAll(/<form[^>]*action="([^"]*)"[^>]*>(.*?)<\/form>/gs)];
    const [, address = '', inside = ''] = forms.find(([, to = '']) => action.test(to)) ?? [];
    const hidden = [...inside.matchAll(/<input type="hidden" name="(\w+)" value="([^"]*)"/g)];
    const values = Object.fromEntries(hidden.map(([, name = '', value = '']) => [name, value]));
    return this.go(address, { ...values, ...fields });
  }

  /** Signs in at the provider, and lets it tell the service so. */
  async signInThere(login: string): Promise<this> {
    await this.submit(/interaction/, { prompt: 'login', login, password: 'any' });
    return this.submit(/interaction/, { prompt: 'consent' });
  }

  followLink(): Promise<this> {
    const address = /<main>.*?<a href="([^"]+)"/s.exec(this.page)?.[1] ?? '';
    return this.go(address.replaceAll('&amp;', '&'));
  }
}

async function anInvitation(): Promise<string> {
  const clan = await aClan(api.database.owner, { name: 'Brass Herons' });
  const made = await api.as(clan).post('/v1/invitations').send({ role: 'analyst' });
  return new URL(made.body.link as string).pathname;
}

async function joined(login: string): Promise<Browser> {
  const browser = await new Browser().go(await anInvitation());
  await browser.submit(/join-elsewhere/, { name: 'Sorrel' });
  await browser.followLink();
  return browser.signInThere(login);
}

describe('signing in through an OpenID provider', () => {
  it('accepts an invitation without any passphrase here, and signs in again as the same person', async () => {
    expect((await joined('sorrel')).page).toContain('in <strong>Brass Herons</strong> as analyst');
    const again = await new Browser().go('/account/elsewhere');
    await again.signInThere('sorrel');
    expect(again.page).toContain('in <strong>Brass Herons</strong> as analyst');
    const { rows } = await api.database.owner.query('select sign_in_name, verifier from app.person');
    expect(rows).toEqual([{ sign_in_name: null, verifier: null }]);
  });

  it('refuses whoever nobody here is', async () => {
    const stranger = await new Browser().go('/account/elsewhere');
    await stranger.signInThere('teasel');
    expect(stranger.status).toBe(401);
    expect(stranger.page).toContain('Signing in did not work');
  });

  it('is for a person who has signed in otherwise to choose', async () => {
    const clan = await aClan(api.database.owner);
    const { session } = await aMember(api.database.owner, clan.id, 'owner');
    const browser = await new Browser().with(`roundbook=${session}`).go('/account');
    await browser.submit(/link-elsewhere/);
    await browser.followLink();
    await browser.signInThere('marlow');
    const again = await new Browser().go('/account/elsewhere');
    await again.signInThere('marlow');
    expect(again.page).toContain(`<strong>${clan.name}</strong> as owner`);
  });

  it('takes no answer that belongs to no errand of this browser, or to another', async () => {
    const callback = '/account/elsewhere/callback?code=guess&state=guess';
    expect((await new Browser().go(callback)).status).toBe(401);
    const other = await new Browser().go('/account/elsewhere', undefined, false);
    expect((await other.go(callback)).status).toBe(401);
  });

  it('keeps neither issuer nor subject, and no SQL can be somebody without the secret of the service', async () => {
    await joined('campion');
    const { rows } = await api.database.owner.query('select i::text as row from app.person_identity i');
    expect(rows.map(({ row }) => String(row)).join()).not.toMatch(/campion|127\.0\.0\.1/);
    const guess = `select app.sign_in_elsewhere(sha256('campion'), gen_random_uuid(), sha256('x'), null, null)`;
    await expect(api.database.service.query(guess)).rejects.toMatchObject({ code: 'RB008' });
  });
});

describe('a provider that is away', () => {
  it('is told a browser on a page, and a program as a problem', async () => {
    const nowhere = await freePort();
    const other = await api.again({
      passphrase: CHEAP_PASSPHRASES,
      openId: {
        issuer: `http://127.0.0.1:${nowhere}`,
        ...{ clientId: 'roundbook', clientSecret: 'a secret of the client', identitySecret: 'x'.repeat(32) },
      },
    });
    const start = (accept: string) => other.browser().get('/account/elsewhere').set('Accept', accept);
    const page = await start('text/html,application/xhtml+xml,*/*;q=0.8');
    expect(page).toMatchObject({ status: 503, type: 'text/html' });
    expect(page.text).toContain('the provider cannot be reached');
    const problem = await start('application/json');
    expect(problem).toMatchObject({ status: 503, type: 'application/problem+json', body: { code: 'server.busy' } });
    await other.app.close();
  });
});
