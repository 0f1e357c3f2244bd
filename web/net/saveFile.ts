/** Saves bytes under a name on this device, as a link with `download` would. */
export function saveFile(bytes: Blob, name: string): void {
  const address = URL.createObjectURL(bytes);
  const anchor = document.createElement("a");
  anchor.href = address;
  anchor.download = name;
  anchor.click();
  URL.revokeObjectURL(address);
}
