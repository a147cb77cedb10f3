import type { BuildOptions } from "esbuild";

/** What every bundle that runs in a browser is made with. */
export function forBrowser(root: string): BuildOptions & { write: false };
