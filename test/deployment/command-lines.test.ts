import { command } from '../support/command.js';
import { MAKING_PATIENCE_MS } from '../support/once-a-run.js';

jest.setTimeout(MAKING_PATIENCE_MS);

// Where a command that was not understood would go on, it would find no database there.
const NOWHERE = { DATABASE_URL: 'postgres://nobody@127.0.0.1:1/none' };

describe('a command', () => {
  it('says how it is called when it is asked for help', async () => {
    const { stdout } = await command('evaluate', NOWHERE, ['--help']);
    expect(stdout).toMatch(/^usage: npm run evaluate -- --data FILE.csv/);
  });

  it('says so too, and does nothing, when it is not understood', async () => {
    const call = command('migrate', NOWHERE, ['--nonsense']);
    await expect(call).rejects.toMatchObject({
      code: 1,
      stdout: '',
      stderr: expect.stringMatching(/^Unknown option '--nonsense'\nusage: npm run migrate/) as unknown,
    });
  });
});
