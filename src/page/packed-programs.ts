import hash from "gramwright:live-hash";
import loader from "gramwright:live-loader";
import core from "gramwright:packed-core";
import livePart from "gramwright:packed-live";
import workerPart from "gramwright:packed-worker";
import type { BuiltLive } from "../live/model/book-parts.ts";
import { unpackText } from "../live/packed-text.ts";

/** What makes a report live that is saved from this page: the same as the command line puts into its own. */
export const builtLive = (): BuiltLive => ({ script: loader, program: core + livePart, programHash: hash });

/** The script of the page's worker, unpacked when it is first wanted. @throws Error in a browser that cannot unpack */
export const workerScript = (() => {
  let unpacked: Promise<string> | undefined;
  return (): Promise<string> => {
    unpacked ??= unpackText(core + workerPart);
    return unpacked;
  };
})();
