/** The command line. */
import process from 'node:process';
import { run } from './program.ts';

// Whoever reads our output may stop early (head, less); that is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await run(process.argv);
