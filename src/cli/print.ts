/** Control characters, line ends aside, and characters that turn the direction of what follows. */
const unseen = /(?!\n)[\p{Cc}\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu;

/**
 * A text that a terminal shows and does not obey: control characters stand as their codes. A text of JSON stays one.
 * @example terminalText("a\u001b[2Jb") // "a\\u001b[2Jb"
 */
export const terminalText = (text: string): string =>
  text.replace(unseen, (sign) => `\\u${sign.codePointAt(0)!.toString(16).padStart(4, "0")}`);

/** Prints to the standard output. */
export const print = (text: string): void => void process.stdout.write(terminalText(text));

/** Prints to the error output. */
export const printError = (text: string): void => void process.stderr.write(terminalText(text));
