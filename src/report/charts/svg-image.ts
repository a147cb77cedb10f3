import { darkColours } from "./chart-palette.ts";

/** Rules that swap the colours a drawing uses where the reader's screen is dark. */
function darkStyle(svg: string): string {
  const rules = Object.entries(darkColours)
    .filter(([light]) => svg.includes(light))
    .map(([light, dark]) => `[fill='${light}']{fill:${dark}}[stroke='${light}']{stroke:${dark}}`);
  return `<style>@media (prefers-color-scheme:dark){${rules.join("")}}</style>`;
}

/** Attribute quotes inside tags become single ones, which need no escape in an address inside double quotes. */
const singleQuotes = (svg: string): string =>
  svg.replace(/<[^>]*>/g, (tag) => (tag.includes("'") ? tag : tag.replaceAll('"', "'")));

/**
 * An SVG drawing as a data address for an image: nothing in it can run, load or reach the page around it.
 * It follows the reader's light or dark setting.
 * @param svg a drawing whose colours are those of the chart palette
 */
export function svgImage(svg: string): string {
  const styled = singleQuotes(svg).replace(/<svg[^>]*>/, (tag) => tag + darkStyle(svg));
  const escaped = styled.replace(/[%#<>"\r\n\t]/g, (character) => encodeURIComponent(character));
  return `data:image/svg+xml;charset=utf-8,${escaped}`;
}
