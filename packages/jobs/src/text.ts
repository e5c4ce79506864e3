/** Reads the text of a file as JSON with care: size, depth and keys are judged before anything is built.
 *  Source: RFC 8259 (grammar)   Leaves out: nothing; a text that passes here is accepted by JSON.parse */
import { shown, type Problem, type ProblemKind } from './problem.ts';

/** Longest text accepted [characters]. */
export const largestJob = 20_000_000;
/** Deepest nesting accepted. */
export const deepestJob = 64;

export type ReadText =
  { readonly kind: 'ok'; readonly value: unknown } | { readonly kind: 'problem'; readonly problem: Problem };

/** The value of a JSON text, or why it has none.  Errors: none thrown for any text */
export function readJson(text: string): ReadText {
  if (text.length > largestJob) return { kind: 'problem', problem: tooLarge(text.length) };
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  try {
    new Scanner(body).document();
  } catch (fault) {
    if (!(fault instanceof TextFault)) throw fault;
    return { kind: 'problem', problem: problemOf(fault, body) };
  }
  return { kind: 'ok', value: JSON.parse(body) as unknown };
}

/** The problem of a text of this many characters or bytes. */
export function tooLarge(size: number): Problem {
  return {
    kind: 'too-large',
    pointer: '',
    place: 'the whole file',
    value: `${Math.round(size / 1e6)} MB`,
    allowed: `at most ${largestJob / 1e6} MB of text`,
    advice: 'A job holds text and references to photos, not the photos: check that this is the right file.',
  };
}

class TextFault extends Error {
  constructor(
    readonly kind: ProblemKind,
    readonly offset: number,
    readonly found: string,
    readonly allowed: string,
    readonly advice: string,
  ) {
    super(kind);
  }
}

function problemOf(fault: TextFault, text: string): Problem {
  const before = text.slice(0, fault.offset);
  const line = before.split('\n').length;
  const column = fault.offset - before.lastIndexOf('\n');
  return {
    kind: fault.kind,
    pointer: '',
    place: `line ${line}, column ${column}`,
    value: fault.found,
    allowed: fault.allowed,
    advice: fault.advice,
  };
}

const forbiddenKeys = new Set(['__proto__', 'constructor', 'prototype']);
const numberPattern = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const escapePattern = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const wordPattern = /[A-Za-z_+\-.\d]+/y;

/** Recursive descent over the text; the depth limit bounds the recursion. */
class Scanner {
  private at = 0;

  constructor(private readonly text: string) {}

  document(): void {
    this.space();
    this.value(1);
    this.space();
    if (this.at < this.text.length) this.refuse('the end of the file');
  }

  private value(depth: number): void {
    if (depth > deepestJob) {
      throw new TextFault(
        'too-deep',
        this.at,
        `${depth} levels of nesting`,
        `at most ${deepestJob} levels`,
        'A job file has fewer than ten levels: check that this is the right file.',
      );
    }
    const character = this.text[this.at];
    if (character === '{') this.object(depth);
    else if (character === '[') this.array(depth);
    else if (character === '"') this.string();
    else if (character === '-' || (character !== undefined && character >= '0' && character <= '9')) {
      if (this.match(numberPattern) === undefined) this.refuse('a number');
    } else this.word();
  }

  private object(depth: number): void {
    const keys = new Set<string>();
    this.list('}', () => {
      const start = this.at;
      if (this.text[this.at] !== '"') this.refuse('a name in double quotes, or }');
      const key = JSON.parse(this.string()) as string;
      if (forbiddenKeys.has(key)) this.refuseKey('forbidden-key', start, key);
      if (keys.has(key)) this.refuseKey('duplicate-key', start, key);
      keys.add(key);
      this.space();
      if (this.text[this.at] !== ':') this.refuse('a colon');
      this.at++;
      this.space();
      this.value(depth + 1);
    });
  }

  private array(depth: number): void {
    this.list(']', () => this.value(depth + 1));
  }

  private list(close: string, item: () => void): void {
    this.at++;
    this.space();
    if (this.text[this.at] === close) {
      this.at++;
      return;
    }
    for (;;) {
      item();
      this.space();
      const next = this.text[this.at];
      if (next !== ',' && next !== close) this.refuse(`a comma or ${close}`);
      this.at++;
      if (next === close) return;
      this.space();
    }
  }

  private string(): string {
    const start = this.at;
    this.at++;
    for (;;) {
      const code = this.text.charCodeAt(this.at);
      if (code === 0x22) {
        this.at++;
        return this.text.slice(start, this.at);
      }
      if (code === 0x5c) {
        if (this.match(escapePattern) === undefined) this.refuse('an escape such as \\n, \\" or \\u00b2');
      } else if (code >= 0x20) this.at++;
      else this.refuse('text on one line, with a closing double quote');
    }
  }

  private word(): void {
    for (const word of ['true', 'false', 'null']) {
      if (this.text.startsWith(word, this.at)) {
        this.at += word.length;
        return;
      }
    }
    this.refuse('a value: text in double quotes, a number, true, false, null, { or [');
  }

  private space(): void {
    for (;;) {
      const code = this.text.charCodeAt(this.at);
      if (code !== 0x20 && code !== 0x0a && code !== 0x0d && code !== 0x09) return;
      this.at++;
    }
  }

  private match(pattern: RegExp): string | undefined {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text)?.[0];
    if (found !== undefined) this.at += found.length;
    return found;
  }

  private refuse(allowed: string): never {
    wordPattern.lastIndex = this.at;
    const found = wordPattern.exec(this.text)?.[0] ?? this.text[this.at];
    const notNumber = found !== undefined && /^[+-]?(?:nan|inf(?:inity)?)$/i.test(found);
    throw new TextFault(
      'not-json',
      this.at,
      found === undefined ? 'the end of the file' : found === '\n' ? 'the end of the line' : shown(found),
      allowed,
      notNumber
        ? 'JSON has no such number: write null for what is unknown.'
        : 'The file is cut short or was edited by hand: mend this place, or take an earlier copy.',
    );
  }

  private refuseKey(kind: 'forbidden-key' | 'duplicate-key', offset: number, key: string): never {
    throw new TextFault(
      kind,
      offset,
      shown(key),
      kind === 'duplicate-key' ? 'each name once in an object' : 'any other name',
      kind === 'duplicate-key'
        ? 'Keep one of the two, so that nothing is lost unseen.'
        : 'Remove or rename this field.',
    );
  }
}
