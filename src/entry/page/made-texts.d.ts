/** The bundled worker, as the text of a script. */
declare module "gramwright:worker" {
  const script: string;
  export default script;
}

/** The sheets of the sample book, as JSON: a list of `{ path, text }`. */
declare module "gramwright:sample-book" {
  const json: string;
  export default json;
}
