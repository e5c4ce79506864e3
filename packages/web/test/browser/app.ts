/** Opens the built page in Chromium for one test, behind the real server with its strict headers. */
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { serve } from '@ampwright/server';
import { launchChromium, launchProfile } from './chromium.ts';

export const builtPage = fileURLToPath(new URL('../../dist', import.meta.url));

export const laptop = { width: 1440, height: 900 };
export const phone = { width: 390, height: 844 };

export interface OpenOptions {
  /** What to open below the root, as `#/jobs` or `?theme=dark`. */
  readonly path?: string;
  /** Folder to serve in place of the built page. */
  readonly root?: string;
  /** Port to serve on; give the earlier one to meet the same storage again. Default: any free one. */
  readonly port?: number;
  /** Folder that keeps the storage after the browser is gone. Default: storage that dies with the test. */
  readonly profile?: string;
  /** Anything else that Playwright's context takes: `viewport`, `colorScheme`, `hasTouch`, ... Not with `profile`. */
  readonly context?: BrowserContextOptions;
}

export interface OpenedApp {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly url: string;
  readonly port: number;
  /** What must stay empty: errors in the console, uncaught errors, refusals of the policy, requests to another host. */
  readonly problems: readonly string[];
  /** From here on the page must live without its server. */
  stopServer(): Promise<void>;
  /** Closes browser and server at once; otherwise that happens when the test ends. */
  close(): Promise<void>;
}

let shared: Promise<Browser> | undefined;

/** Serves and opens the page. Call it inside a test: it closes everything when that test ends. */
export async function openApp(options: OpenOptions = {}): Promise<OpenedApp> {
  const server = await serve({ root: options.root ?? builtPage, port: options.port ?? 0 });
  const context = await openContext(options);
  const problems: string[] = [];
  watch(context, server.url, problems);

  const stopServer = once(() => server.close());
  const close = once(async () => {
    await context.close();
    await stopServer();
  });
  onTestFinished(close);

  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(server.url + (options.path ?? ''));
  return { page, context, url: server.url, port: server.port, problems, stopServer, close };
}

/** Closes the browser that the tests of a file share: `afterAll(closeBrowser)`. */
export async function closeBrowser(): Promise<void> {
  const browser = await shared;
  shared = undefined;
  await browser?.close();
}

/** Violations of WCAG 2.0 to 2.2, A and AA, as axe-core finds them; one line each, empty when there are none. */
export async function accessibilityViolations(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help}: ${node.target.join(' ')}`),
  );
}

async function openContext({ profile, context }: OpenOptions): Promise<BrowserContext> {
  if (profile !== undefined) return launchProfile(profile);
  shared ??= launchChromium();
  const browser = await shared;
  return browser.newContext({ viewport: laptop, ...context });
}

function watch(context: BrowserContext, url: string, problems: string[]): void {
  const { origin } = new URL(url);
  context.on('console', (message) => {
    if (message.type() === 'error') problems.push(`console: ${message.text()}`);
  });
  context.on('weberror', (webError) => problems.push(`uncaught: ${webError.error().message}`));
  context.on('request', (request) => {
    const target = new URL(request.url());
    if (target.protocol.startsWith('http') && target.origin !== origin) {
      problems.push(`request to another host: ${request.url()}`);
    }
  });
}

function once(action: () => Promise<void>): () => Promise<void> {
  let result: Promise<void> | undefined;
  return () => (result ??= action());
}
