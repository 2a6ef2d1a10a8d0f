import { run } from './main.ts';

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // a reader that has seen enough, such as `head`, closes the pipe
  if (error.code === 'EPIPE') process.exit(0);
});

process.exitCode = await run(process.argv.slice(2));
