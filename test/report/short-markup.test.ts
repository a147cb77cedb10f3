import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { expect, test } from "vitest";
import { SvgPicture } from "../../src/report/charts/svg-picture.tsx";
import { shortMarkup } from "../../src/report/short-markup.ts";

// HTML Living Standard, 13.1.2.4 "Optional tags", and 13.1.2.1 for shapes that close themselves
test.each([
  [
    "<table><thead><tr><th>a</th><th>b</th></tr></thead><tbody><tr><td>1</td><td>2</td></tr></tbody></table>",
    "<table><thead><tr><th>a<th>b<tbody><tr><td>1<td>2</table>",
  ],
  ["<ul><li>a</li><li>b</li></ul><p>c</p>", "<ul><li>a<li>b</ul><p>c</p>"],
  [
    '<svg><path d="M0,0"></path><g><circle r="2"></circle></g></svg>',
    '<svg><path d="M0,0"/><g><circle r="2"/></g></svg>',
  ],
  ["<svg><path><title>t</title></path></svg>", "<svg><path><title>t</title></path></svg>"],
  ["<td>&lt;/td></td><p>", "<td>&lt;/td></td><p>"],
])("%s", (whole, short) => {
  expect(shortMarkup(whole)).toBe(short);
});

test("marks that look alike say so once and stand where they stood", () => {
  const ring = (x: number, y: number) =>
    `<path aria-label="pick dose-1" transform="translate(${x},${y})" d="M2.9,0A2.9,2.9,0,1,1,-2.9,0A2.9,2.9,0,1,1,2.9,0" fill="red"/>`;
  const square = (x: number) => `<path transform="translate(${x},1)" d="M-2,-2h4v4h-4Z" fill="blue"/>`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9">${ring(1, 2)}${ring(3.5, 4)}${ring(5, 6)}${square(4)}</svg>`;
  expect(shortMarkup(renderToString(h(SvgPicture, { svg, name: "n", look: "chart" })))).toBe(
    '<svg width="9" height="9" class="chart" role="img" aria-label="n"><g fill="red">' +
      '<circle class="pick dose-1" cx="1" cy="2" r="2.9"/><circle class="pick dose-1" cx="3.5" cy="4" r="2.9"/>' +
      '<circle class="pick dose-1" cx="5" cy="6" r="2.9"/></g><path fill="blue" d="M2,-1h4v4h-4Z"/></svg>',
  );
});
