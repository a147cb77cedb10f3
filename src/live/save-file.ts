/** Hands the reader a file of the page's own making. */
export function saveFile(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // the download has taken hold of the content by then
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
