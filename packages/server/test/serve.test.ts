import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serve } from '../src/index.ts';
import type { RunningServer } from '../src/index.ts';

describe('serve', () => {
  const folder = mkdtempSync(join(tmpdir(), 'ampwright-serve-'));
  const root = join(folder, 'dist');
  let server: RunningServer;

  beforeAll(async () => {
    mkdirSync(join(root, 'assets'), { recursive: true });
    writeFileSync(join(root, 'index.html'), '<!doctype html><title>page</title>');
    writeFileSync(join(root, 'sw.js'), '// worker');
    writeFileSync(join(root, 'assets', 'index-B1gHash_.js'), '// hashed');
    writeFileSync(join(root, 'assets', 'plain.js'), '// not hashed');
    writeFileSync(join(folder, 'secret.txt'), 'outside');
    server = await serve({ root, port: 0 });
  });
  afterAll(async () => {
    await server.close();
    rmSync(folder, { recursive: true });
  });

  it('[W3C CSP Level 3, section 6] sends a policy without any inline or foreign source', async () => {
    const reply = await fetch(server.url);
    expect(reply.status).toBe(200);
    const policy = reply.headers.get('content-security-policy') ?? '';
    const directives = policy.split(';').sort();
    expect(directives).toEqual([
      "base-uri 'none'",
      "default-src 'self'",
      "form-action 'self'",
      "frame-ancestors 'none'",
      "img-src 'self' data: blob:",
      "object-src 'none'",
      "script-src 'self'",
      "style-src 'self'",
      "worker-src 'self'",
    ]);
  });

  it('[W3C Referrer Policy, Fetch nosniff] sends the companions of the policy', async () => {
    const { headers } = await fetch(server.url);
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('permissions-policy')).toContain('geolocation=()');
    expect(headers.get('strict-transport-security')).toBeNull();
  });

  it.each([
    ['', 'no-cache'],
    ['sw.js', 'no-cache'],
    ['assets/plain.js', 'no-cache'],
    ['assets/index-B1gHash_.js', 'public, max-age=31536000, immutable'],
  ])('[RFC 9111 section 5.2, RFC 8246] caches %o as %s', async (path, expected) => {
    const reply = await fetch(server.url + path);
    expect(reply.status).toBe(200);
    expect(reply.headers.get('cache-control')).toBe(expected);
  });

  it('[RFC 9110 section 15.5.5] answers 404 for a missing file, with the same headers', async () => {
    const reply = await fetch(`${server.url}missing.js`);
    expect(reply.status).toBe(404);
    expect(reply.headers.get('content-security-policy')).toContain("script-src 'self'");
  });

  it.each(['/../secret.txt', '/%2e%2e/secret.txt', '/..%2fsecret.txt'])(
    '[CWE-22] gives nothing outside its folder: %s',
    async (path) => {
      const answer = await rawAnswer(server.port, path);
      expect(answer).toMatch(/^HTTP\/1\.1 40[034]/);
      expect(answer).not.toContain('outside');
    },
  );

  it('[RFC 1122 section 3.2.1.3] listens on loopback unless told otherwise', () => {
    expect(new URL(server.url).hostname).toBe('127.0.0.1');
  });

  it('[POSIX EADDRINUSE] takes the next free port and tells which were taken', async () => {
    const second = await serve({ root, port: server.port });
    try {
      expect(second.taken[0]).toBe(server.port);
      expect(second.port).toBe(server.port + second.taken.length);
      expect((await fetch(second.url)).status).toBe(200);
    } finally {
      await second.close();
    }
  });

  it('[limit] refuses a folder without a page and a port that is none', async () => {
    await expect(serve({ root: folder, port: 0 })).rejects.toThrow('no index.html');
    await expect(serve({ root, port: 70_000 })).rejects.toThrow(RangeError);
  });
});

/** The whole answer to one request whose path is sent as it stands: `fetch` would tidy the dots away. */
function rawAnswer(port: number, path: string): Promise<string> {
  return new Promise((done, fail) => {
    const socket = connect(port, '127.0.0.1');
    let answer = '';
    socket.on('data', (chunk) => (answer += chunk.toString()));
    socket.on('end', () => done(answer));
    socket.on('error', fail);
    socket.write(`GET ${path} HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n`);
  });
}
