/** Runs the dialogue over two streams of lines. */
import { StringDecoder } from 'node:string_decoder';
import type { Readable, Writable } from 'node:stream';
import { longestLine, type Interview } from './interview.ts';
import type { InterviewOut } from './interview-messages.ts';

/** Talks until the verdict is given; the end of the input brings the verdict too. */
export async function talk(interview: Interview, input: Readable, output: Writable): Promise<void> {
  const say = (messages: readonly InterviewOut[]): void => {
    for (const message of messages) output.write(`${JSON.stringify(message)}\n`);
  };
  say(interview.start());
  if (interview.isOver()) return;
  for await (const line of linesOf(input)) {
    say(interview.receive(line));
    if (interview.isOver()) break;
  }
  say(interview.end());
}

/** Lines of a stream. Of a line that is too long only so much is kept as shows that it is. */
async function* linesOf(input: Readable): AsyncGenerator<string> {
  const decoder = new StringDecoder('utf8');
  let rest = '';
  for await (const chunk of input) {
    const pieces = (rest + decoder.write(chunk as Buffer)).split('\n');
    rest = (pieces.pop() ?? '').slice(0, longestLine + 1);
    yield* pieces;
  }
  rest += decoder.end();
  if (rest !== '') yield rest;
}
