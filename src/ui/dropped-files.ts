/** Whether a drag carries files, as against text or a link. */
export function carriesFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes('Files') === true;
}

/** The files of a drop, those inside dropped folders included, in the order of their names within each folder. */
export async function droppedFiles({ dataTransfer }: DragEvent): Promise<readonly File[]> {
  if (dataTransfer === null) return [];
  // The list is emptied as soon as the event is over: everything is taken from it before anything is awaited.
  const taken = [...dataTransfer.items].map((item) => ({ entry: item.webkitGetAsEntry(), file: item.getAsFile() }));
  const found = await Promise.all(
    taken.map(async ({ entry, file }) => {
      if (entry?.isDirectory === true) return filesIn(entry as FileSystemDirectoryEntry);
      return file === null ? [] : [file];
    }),
  );
  return found.flat();
}

async function filesIn(folder: FileSystemDirectoryEntry): Promise<readonly File[]> {
  const entries = (await entriesOf(folder)).filter(({ name }) => !name.startsWith('.'));
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  const found = await Promise.all(
    entries.map((entry) =>
      entry.isDirectory
        ? filesIn(entry as FileSystemDirectoryEntry)
        : new Promise<File[]>((resolve, reject) => {
            (entry as FileSystemFileEntry).file((file) => {
              resolve([file]);
            }, reject);
          }),
    ),
  );
  return found.flat();
}

/** All entries of a folder; a browser gives them in batches, the last of which is empty. */
async function entriesOf(folder: FileSystemDirectoryEntry): Promise<FileSystemEntry[]> {
  const reader = folder.createReader();
  const entries: FileSystemEntry[] = [];
  for (;;) {
    const batch = await new Promise<FileSystemEntry[]>((resolve, reject) => {
      reader.readEntries(resolve, reject);
    });
    if (batch.length === 0) return entries;
    entries.push(...batch);
  }
}
