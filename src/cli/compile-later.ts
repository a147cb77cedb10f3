import { setFlagsFromString } from "node:v8";

/** How much code runs before V8 looks again at what to compile for speed; newer versions of Node have no such flag. */
function setBudget(bytecodes: number): void {
  if (process.versions.node.startsWith("20.")) setFlagsFromString(`--interrupt-budget=${bytecodes}`);
}

/** Has Node 20 compile code twelve times later than it would: on a small book a command is over before most of it has paid. */
export const compileLater = (): void => setBudget(800_000);

/** Bytes of sheets, some twelve thousand trays, from which it pays. */
const large = 1_000_000;

/** Has Node 20 compile only twice as late as by itself where a book's sheets are large. @param bytes of the sheets */
export function compileSoonerIfLarge(bytes: number): void {
  if (bytes > large) setBudget(132_000);
}
