import hash from "gramwright:live-hash";
import loader from "gramwright:live-loader";
import core from "gramwright:packed-core";
import livePart from "gramwright:packed-live";
import workerPart from "gramwright:packed-worker";
import type { BuiltLive } from "../live/model/book-parts.ts";

/** What makes a report live that is saved from this page: the same as the command line puts into its own. */
export const builtLive = (): BuiltLive => ({ script: loader, program: core + livePart, programHash: hash });

let unpacked: Promise<string> | undefined;

async function unpack(base64: string): Promise<string> {
  if (typeof DecompressionStream === "undefined")
    throw new Error("this browser is too old to unpack the page's program; use a newer one");
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).text();
}

/** The script of the page's worker, unpacked when it is first wanted. @throws Error in a browser that cannot unpack */
export function workerScript(): Promise<string> {
  unpacked ??= unpack(core + workerPart);
  return unpacked;
}
