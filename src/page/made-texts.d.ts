/** What the drop page's worker and a live report's program share: the first part of a gzip file, in base 91. */
declare module "gramwright:packed-core" {
  const packed: string;
  export default packed;
}

/** The rest of that file for a live report's program. */
declare module "gramwright:packed-live" {
  const packed: string;
  export default packed;
}

/** The rest of that file for the page's worker. */
declare module "gramwright:packed-worker" {
  const packed: string;
  export default packed;
}

/** The script that starts a live report. */
declare module "gramwright:live-loader" {
  const script: string;
  export default script;
}

/** The hash of a live report's program, as a content policy writes it. */
declare module "gramwright:live-hash" {
  const hash: string;
  export default hash;
}

/** The sheets of the sample book, as JSON: a list of `{ path, text }`. */
declare module "gramwright:sample-book" {
  const json: string;
  export default json;
}
