import Provider from 'oidc-provider';

/**
 * A real OpenID provider on this machine, in a process of its own. Its development pages let anybody sign in as whoever
 * they say. Arguments: its port, and the address that people are sent back to.
 */
const [port = '', redirect = ''] = process.argv.slice(2);
const provider = new Provider(`http://127.0.0.1:${port}`, {
  clients: [
    {
      client_id: 'roundbook',
      client_secret: 'a secret of the client',
      redirect_uris: [redirect],
      grant_types: ['authorization_code'],
    },
  ],
  cookies: { keys: ['for tests only'] },
  pkce: { required: () => true },
});
provider.listen(Number(port), '127.0.0.1', () => process.stdout.write('ready\n'));
