import { darkColours } from "./chart-palette.ts";

/** Rules that swap a drawing's colours where the reader's screen is dark. */
const darkRules = Object.entries(darkColours)
  .map(([light, dark]) => `[fill='${light}']{fill:${dark}}[stroke='${light}']{stroke:${dark}}`)
  .join("");
const darkStyle = `<style>@media (prefers-color-scheme:dark){${darkRules}}</style>`;

/** Attribute quotes inside tags become single ones, which need no escape in an address inside double quotes. */
const singleQuotes = (svg: string): string =>
  svg.replace(/<[^>]*>/g, (tag) => (tag.includes("'") ? tag : tag.replaceAll('"', "'")));

/**
 * An SVG drawing as a data address for an image: nothing in it can run, load or reach the page around it.
 * It follows the reader's light or dark setting.
 * @param svg a drawing whose colours are those of the chart palette
 */
export function svgImage(svg: string): string {
  const styled = singleQuotes(svg).replace(/<svg[^>]*>/, (tag) => tag + darkStyle);
  const escaped = styled.replace(/[%#<>"\r\n\t]/g, (character) => encodeURIComponent(character));
  return `data:image/svg+xml;charset=utf-8,${escaped}`;
}
