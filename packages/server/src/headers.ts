/** Response headers: what the browser may do with the page, and how long it may keep a file.
 *  The page computes everything itself, so it may reach its own origin and nothing else.
 */
import type { FastifyHelmetOptions } from '@fastify/helmet';

/** Content-Security-Policy and its companions. Inline scripts, inline styles and `eval` are all refused. */
export const strictHeaders: FastifyHelmetOptions = {
  contentSecurityPolicy: {
    useDefaults: false,
    directives: {
      defaultSrc: ["'self'"],
      scriptSrc: ["'self'"],
      styleSrc: ["'self'"],
      workerSrc: ["'self'"],
      imgSrc: ["'self'", 'data:', 'blob:'],
      formAction: ["'self'"],
      objectSrc: ["'none'"],
      baseUri: ["'none'"],
      frameAncestors: ["'none'"],
    },
  },
  referrerPolicy: { policy: 'no-referrer' },
  frameguard: { action: 'deny' },
  // Plain HTTP on loopback: a browser that remembered this would refuse every other local server.
  strictTransportSecurity: false,
};

/** Camera and microphone serve photos and recordings of a visit; the rest is refused. */
export const permissionsPolicy =
  'camera=(self), microphone=(self), geolocation=(), payment=(), usb=(), display-capture=()';

const contentHash = /-[A-Za-z0-9_-]{8,}\.[a-z0-9]+$/;

/** Cache-Control for a file, from its path below the served folder (with forward slashes).
 *  Only a name under `assets/` that carries a content hash may be kept for ever: its content can never change.
 *  Anything else (the page, the service worker, the manifest) is asked for again each time.
 */
export function cacheControl(path: string): string {
  const hashed = path.startsWith('assets/') && contentHash.test(path);
  return hashed ? 'public, max-age=31536000, immutable' : 'no-cache';
}
