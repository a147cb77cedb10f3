import { noFlags } from "./tray-draft.ts";

/** Adds a code to a tray's flags, which may still be the shared empty list. */
export function addFlag(tray: { flags: string[] }, code: string): void {
  if (tray.flags === noFlags) tray.flags = [code];
  else if (!tray.flags.includes(code)) tray.flags.push(code);
}
