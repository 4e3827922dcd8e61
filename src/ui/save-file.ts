/** Hands a file to the person through the browser's downloads. */
export function saveFile(content: Blob, name: string): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser reads the address after this turn.
  setTimeout(() => {
    URL.revokeObjectURL(address);
  }, 10_000);
}

/** The part of the browser's file handles that is used here; the compiler's libraries do not know them. */
interface FilePicker {
  showSaveFilePicker?(options: { suggestedName: string }): Promise<{
    createWritable(): Promise<{ write(content: Blob): Promise<void>; close(): Promise<void> }>;
    getFile(): Promise<Blob>;
  }>;
}

/**
 * Saves a file where the person chooses, and reads back what then stands there. Where the browser has no file handles it goes to the downloads,
 * and the file as it was written comes back.
 * @returns undefined where no place was chosen
 */
export async function saveAndReadBack(content: Blob, name: string): Promise<Blob | undefined> {
  const picker = globalThis as FilePicker;
  if (picker.showSaveFilePicker === undefined) {
    saveFile(content, name);
    return content;
  }
  try {
    const handle = await picker.showSaveFilePicker({ suggestedName: name });
    const writable = await handle.createWritable();
    await writable.write(content);
    await writable.close();
    return await handle.getFile();
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return undefined;
    throw error;
  }
}
