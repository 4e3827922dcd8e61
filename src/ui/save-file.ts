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

/** What the browser offers for files outside of it; the compiler's libraries do not know it. */
interface FilePicker {
  showSaveFilePicker?(options: { suggestedName: string }): Promise<FileSystemFileHandle>;
}

interface Permitted {
  requestPermission?(mode: { readonly mode: 'readwrite' }): Promise<PermissionState>;
}

/** Whether the browser lets a page keep a file outside of it up to date. */
export function hasFileHandles(): boolean {
  return (globalThis as FilePicker).showSaveFilePicker !== undefined;
}

/** Lets the person choose a file to write. @returns undefined where none was chosen, or the browser has no file handles */
export async function chooseFile(name: string): Promise<FileSystemFileHandle | undefined> {
  try {
    return await (globalThis as FilePicker).showSaveFilePicker?.({ suggestedName: name });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return undefined;
    throw error;
  }
}

/** Asks the person to let the page write a file that was chosen in an earlier visit. @returns whether it may */
export async function askForFile(handle: FileSystemFileHandle): Promise<boolean> {
  const permission = await (handle as Permitted).requestPermission?.({ mode: 'readwrite' });
  return permission === undefined || permission === 'granted';
}

/**
 * Saves a file where the person chooses, and reads back what then stands there. Where the browser has no file handles it goes to the downloads,
 * and nobody but the person can tell whether it arrived.
 * @returns undefined where no place was chosen
 */
export async function saveAndReadBack(content: Blob, name: string): Promise<Blob | 'unseen' | undefined> {
  if (!hasFileHandles()) {
    saveFile(content, name);
    return 'unseen';
  }
  const handle = await chooseFile(name);
  if (handle === undefined) return undefined;
  const writable = await handle.createWritable();
  await writable.write(content);
  await writable.close();
  return handle.getFile();
}
