/** Bytes as text of 85 letters, none of them a quotation mark, a space, a backslash or a less-than sign. */
export function base85Of(bytes: Uint8Array): string;

/** The bytes such a text stands for. @throws RangeError for any other letter */
export function bytesOf85(text: string): Uint8Array<ArrayBuffer>;
