import { terminalText } from "./print.ts";

/** A line on the terminal that says what is going on. */
export interface Progress {
  /** replaces the line, at most ten times a second */
  say(text: string): void;
  /** takes the line away */
  done(): void;
}

/** Shows progress on standard error once work has taken a second; silent when it is not a terminal. */
export function terminalProgress(): Progress {
  const started = Date.now();
  let shownAt = 0;
  if (!process.stderr.isTTY) return { say: () => {}, done: () => {} };
  return {
    say(text) {
      const now = Date.now();
      if (now - started < 1000 || now - shownAt < 100) return;
      shownAt = now;
      process.stderr.write(`\r\u001b[2K${terminalText(text).slice(0, (process.stderr.columns ?? 80) - 1)}`);
    },
    done() {
      if (shownAt > 0) process.stderr.write("\r\u001b[2K");
    },
  };
}
