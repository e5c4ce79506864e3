/** Chromium as the tests and the picture script start it: Debian's, without traffic of its own. */
import { existsSync } from 'node:fs';
import { chromium } from 'playwright-core';
import type { Browser, BrowserContext, LaunchOptions } from 'playwright-core';

/** Set CHROMIUM to use another binary. */
const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium';

const launchOptions: LaunchOptions = {
  executablePath,
  args: [
    // Root may not use the sandbox; the pages opened here are our own.
    '--no-sandbox',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--no-first-run',
    '--no-default-browser-check',
    // Containers give /dev/shm 64 MB, on which Chromium crashes.
    '--disable-dev-shm-usage',
  ],
};

export async function launchChromium(): Promise<Browser> {
  assertInstalled();
  return chromium.launch(launchOptions);
}

/** A browser whose storage lives in a folder, so that it can be killed and opened again. */
export async function launchProfile(folder: string): Promise<BrowserContext> {
  assertInstalled();
  return chromium.launchPersistentContext(folder, launchOptions);
}

function assertInstalled(): void {
  if (existsSync(executablePath)) return;
  throw new Error(
    `no Chromium at ${executablePath}: apt-get install chromium, or set CHROMIUM to the path of yours`,
  );
}
