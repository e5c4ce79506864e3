export { serve } from './serve.ts';
export type { RunningServer, ServeOptions } from './serve.ts';
