import type { Readable } from 'node:stream';
import { StringDecoder } from 'node:string_decoder';

/**
 * The lines of a stream, in batches: what has arrived together comes together, so that many lines are worked out at once
 * and a line typed by hand is answered at once. A last line without its line end counts; an empty end does not.
 */
export async function* lineBatches(input: Readable): AsyncGenerator<string[]> {
  const decoder = new StringDecoder('utf8');
  let rest = '';
  for await (const chunk of input) {
    const parts = (rest + (typeof chunk === 'string' ? chunk : decoder.write(chunk as Buffer))).split('\n');
    rest = parts.pop() ?? '';
    if (parts.length > 0) yield parts.map(withoutReturn);
  }
  rest += decoder.end();
  if (rest !== '') yield [withoutReturn(rest)];
}

const withoutReturn = (line: string): string => (line.endsWith('\r') ? line.slice(0, -1) : line);
