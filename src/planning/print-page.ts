/** Text made safe to stand inside HTML, in attributes too. */
export function escapeHtml(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");
}

/**
 * A self-contained page for paper: no script, nothing fetched.
 * @param title plain text
 * @param style rules of this page
 * @param body HTML, already escaped
 * @param name by which the page is known again, so that a newer one may take its place; none for a page to be kept
 */
export function printPage(title: string, style: string, body: string, name?: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escapeHtml(title)}</title>
<style>
@page { margin: 10mm; }
body { margin: 8mm; background: #fff; color: #16201c; font: 10.5pt/1.35 ui-sans-serif, system-ui, sans-serif; }
h1 { margin: 0 0 2mm; font-size: 15pt; }
p { margin: 0 0 3mm; max-width: 170mm; }
@media print { body { margin: 0; } }
${style}
</style>
</head>
<body${name === undefined ? "" : ` class="${name}"`}>
${body}
</body>
</html>
`;
}
