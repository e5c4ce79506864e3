/** The one door to the schema library. Validation is interpreted, not compiled: a page under a strict content
 *  policy may not build functions from text, and a command starts sooner. */
import * as z from 'zod/mini';

z.config({ jitless: true });

export { z };
