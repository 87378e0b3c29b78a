import { chromium, type Browser } from 'playwright-core';
import { tool } from './tool.js';

// Nothing but the page under test may use the network.
const QUIET = [
  '--disable-quic',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
];

/** The system's own Chromium; the driver brings none. */
export function launchChromium(): Promise<Browser> {
  const root = process.getuid?.() === 0;
  return chromium.launch({
    executablePath: tool(['chromium', 'chromium-browser', 'google-chrome'], 'chromium'),
    // Its sandbox refuses to run as root, as which continuous integration runs.
    args: [...QUIET, ...(root ? ['--no-sandbox'] : [])],
  });
}
