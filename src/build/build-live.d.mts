/** The parts of a live report that are the same for every book, and the files that went into them. */
export function buildLive(options: {
  root: string;
  version: string;
}): Promise<{ parts: { script: string; program: string; programHash: string }; inputs: string[] }>;
