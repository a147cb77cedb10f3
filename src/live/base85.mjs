// Bytes as text that may stand in a script element: the base 85 of ZeroMQ RFC 32 (Z85), with "_" in the place of "<". It is
// a quarter longer than the bytes; base64 is a third longer. A last group of fewer than four bytes has one letter more
// than bytes. Plain JavaScript, because the build runs it as it is.
const letters = "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.-:+=^!/*?&_>()[]{}@%$#";

export function base85Of(bytes) {
  const texts = [];
  for (let at = 0; at < bytes.length; at += 4) {
    let value = 0;
    for (let byte = at; byte < at + 4; byte++) value = value * 256 + (bytes[byte] ?? 0);
    let text = "";
    for (let place = 0; place < 5; place++) {
      text = letters[value % 85] + text;
      value = Math.floor(value / 85);
    }
    texts.push(text.slice(0, bytes.length - at + 1));
  }
  return texts.join("");
}

export function bytesOf85(text) {
  const places = new Map([...letters].map((letter, place) => [letter, place]));
  const groups = Math.ceil(text.length / 5);
  const view = new DataView(new ArrayBuffer(groups * 4));
  for (let group = 0; group < groups; group++) {
    let value = 0;
    for (let at = group * 5; at < group * 5 + 5; at++) {
      const place = at < text.length ? places.get(text[at]) : 84;
      if (place === undefined) throw new RangeError(`bytesOf85: letter ${at + 1} is not one of the 85`);
      value = value * 85 + place;
    }
    view.setUint32(group * 4, value);
  }
  return new Uint8Array(view.buffer, 0, Math.floor((text.length * 4) / 5));
}
