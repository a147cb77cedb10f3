declare const GRAMWRIGHT_VERSION: string | undefined;

/** The package's version, put in when it is bundled; "unbundled" when the sources run as they are (in tests). */
export const version: string = typeof GRAMWRIGHT_VERSION === "string" ? GRAMWRIGHT_VERSION : "unbundled";
