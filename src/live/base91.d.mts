/** Bytes as text of 91 letters, none of them a quotation mark, a space, a backslash or a less-than sign. */
export function base91Of(bytes: Uint8Array): string;

/** The bytes such a text stands for. @throws RangeError for any other letter */
export function bytesOf91(text: string): Uint8Array<ArrayBuffer>;
