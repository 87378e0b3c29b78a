import { browserName } from './browser-name.js';

const ENGINE = 'AppleWebKit/537.36 (KHTML, like Gecko)';

it.each([
  ['Mozilla/5.0 (X11; Linux x86_64; rv:128.0) Gecko/20100101 Firefox/128.0', 'Firefox on Linux'],
  [`Mozilla/5.0 (Linux; Android 14) ${ENGINE} Chrome/126.0.0.0 Mobile Safari/537.36`, 'Chrome on Android'],
  [
    `Mozilla/5.0 (Windows NT 10.0; Win64; x64) ${ENGINE} Chrome/126.0.0.0 Safari/537.36 Edg/126.0.0.0`,
    'Edge on Windows',
  ],
  [`Mozilla/5.0 (iPhone; CPU iPhone OS 17_5 like Mac OS X) ${ENGINE} Version/17.5 Safari/604.1`, 'Safari on iOS'],
  [`Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) ${ENGINE} Version/17.5 Safari/605.1.15`, 'Safari on macOS'],
  ['Firefox/128.0', 'Firefox'],
  ['curl/8.5.0', 'curl/8.5.0'],
  ['scoreboard of the wall, second edition', 'scoreboard of the'],
  ['x'.repeat(300), 'x'.repeat(40)],
  ['', ''],
  [null, 'unknown browser'],
])('of %s is told as %s', (userAgent, name) => {
  expect(browserName(userAgent)).toBe(name);
});
