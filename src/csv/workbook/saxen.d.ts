/** The part of saxen that is used; the package brings no types. */
declare module "saxen" {
  export class Parser {
    constructor(options?: { proxy?: boolean });
    /** prefixes to use for the namespaces, whatever the document calls them */
    ns(prefixByUri?: Record<string, string>): this;
    on(
      event: "openTag",
      listener: (
        name: string,
        attributes: () => Record<string, string>,
        decodeEntities: (text: string) => string,
        selfClosing: boolean,
      ) => void,
    ): this;
    on(event: "closeTag", listener: (name: string) => void): this;
    on(event: "text", listener: (text: string, decodeEntities: (text: string) => string) => void): this;
    on(event: "cdata", listener: (text: string) => void): this;
    on(event: "error", listener: (error: Error) => void): this;
    on(event: "warn", listener: (warning: Error) => void): this;
    parse(xml: string): Error | null;
    stop(): this;
  }
}
