/** The static server: one folder, strict headers, loopback by default. */
import { existsSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import helmet from '@fastify/helmet';
import statics from '@fastify/static';
import Fastify from 'fastify';
import type { FastifyInstance } from 'fastify';
import { cacheControl, permissionsPolicy, strictHeaders } from './headers.ts';

export interface ServeOptions {
  /** Folder to serve; must hold `index.html`. */
  readonly root: string;
  /** First port to try; 0 takes any free one. */
  readonly port: number;
  /** Address to listen on. Anything but a loopback address opens the page to the network. */
  readonly host?: string;
}

export interface RunningServer {
  readonly url: string;
  readonly port: number;
  /** The ports that were found taken before this one. */
  readonly taken: readonly number[];
  close(): Promise<void>;
}

const portsToTry = 20;
const highestPort = 65_535;

/** Serves a folder and resolves once it listens. When the port is taken the next free one is used, and told in `taken`.
 *  Errors: RangeError when `port` is no port; Error when the folder holds no `index.html`, or no port is free.
 */
export async function serve({ root, port, host = '127.0.0.1' }: ServeOptions): Promise<RunningServer> {
  if (!Number.isInteger(port) || port < 0 || port > highestPort) {
    throw new RangeError(`serve: port is ${port}; expected a whole number from 0 to ${highestPort}`);
  }
  const folder = resolve(root);
  if (!existsSync(join(folder, 'index.html'))) {
    throw new Error(`serve: no index.html in ${folder}; build the page first`);
  }

  const last = port === 0 ? 0 : Math.min(port + portsToTry - 1, highestPort);
  const taken: number[] = [];
  for (let candidate = port; candidate <= last; candidate++) {
    const app = await pageServer(folder);
    try {
      await app.listen({ port: candidate, host });
      return running(app, host, taken);
    } catch (error) {
      await app.close();
      if (!isPortTaken(error)) throw error;
      taken.push(candidate);
    }
  }
  throw new Error(`serve: ports ${port} to ${last} on ${host} are all taken; name another`);
}

async function pageServer(folder: string): Promise<FastifyInstance> {
  const app = Fastify({ logger: false, forceCloseConnections: true });
  await app.register(helmet, strictHeaders);
  app.addHook('onSend', async (_request, reply) => {
    reply.header('permissions-policy', permissionsPolicy);
  });
  await app.register(statics, {
    root: folder,
    cacheControl: false,
    setHeaders: (reply, path) => {
      reply.setHeader('cache-control', cacheControl(relative(folder, path).split(sep).join('/')));
    },
  });
  app.setNotFoundHandler((_request, reply) => reply.code(404).type('text/plain').send('Not found\n'));
  return app;
}

function running(app: FastifyInstance, host: string, taken: readonly number[]): RunningServer {
  const address = app.server.address();
  if (address === null || typeof address === 'string') throw new Error('serve: listening on no port');
  const name = host.includes(':') ? `[${host}]` : host;
  return {
    url: `http://${name}:${address.port}/`,
    port: address.port,
    taken,
    close: () => app.close(),
  };
}

function isPortTaken(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
}
