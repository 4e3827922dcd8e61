/** Keys that do one thing together, and what that is. */
export interface Shortcut {
  readonly keys: string;
  readonly does: string;
}

export interface ShortcutGroup {
  readonly title: string;
  readonly shortcuts: readonly Shortcut[];
}

/** All that the grid of readings does by key. Movement follows the data grid pattern of the WAI-ARIA Authoring Practices Guide. */
export const SHORTCUTS: readonly ShortcutGroup[] = [
  {
    title: 'Move',
    shortcuts: [
      { keys: 'arrows', does: 'to the next cell' },
      { keys: 'Page Up, Page Down', does: 'by as many rows as are in sight' },
      { keys: 'Home, End', does: 'to the first or last cell of the row' },
      { keys: 'Ctrl + Home, Ctrl + End', does: 'to the first or last cell of all' },
      { keys: 'Tab', does: 'out of the grid; Shift + Tab the other way' },
    ],
  },
  {
    title: 'Select',
    shortcuts: [
      { keys: 'Shift + a moving key', does: 'up to the cell that it leads to' },
      { keys: 'Shift + Space', does: 'the whole row' },
      { keys: 'Ctrl + Space', does: 'the whole column' },
      { keys: 'Ctrl + A', does: 'all' },
      { keys: 'Ctrl + C', does: 'copy for a spreadsheet: nothing is taken for a formula' },
      { keys: 'Shift + Ctrl + C', does: 'copy exactly: as the cells read' },
    ],
  },
  {
    title: 'On a reading or a group',
    shortcuts: [
      { keys: 'Enter', does: 'all about the reading; fold the group or unfold it' },
      {
        keys: 'Ctrl + Enter, Ctrl + click',
        does: 'to what the cell names: the repair, the family, the lines of the file; from any other cell to the band of its point',
      },
      { keys: '?', does: 'this page' },
    ],
  },
  {
    title: 'Edit',
    shortcuts: [
      { keys: 'F2, or any letter or digit', does: 'edit the cell; Enter keeps it, Escape leaves it as it was' },
      { keys: 'Ctrl + Enter in a cell', does: 'the same for all that is selected in its column' },
      { keys: 'Ctrl + D', does: 'fill the selection with what its first row holds' },
      { keys: 'Ctrl + V', does: 'paste a block of cells over readings or as new ones, after a look at what it does' },
      { keys: 'Insert', does: 'add a reading by hand' },
      { keys: 'Shift + Ctrl + D', does: 'add the selected readings once more, as new ones' },
      { keys: 'Ctrl + Z, Ctrl + Y', does: 'take the last edit back, do it again' },
      { keys: 'Ctrl + Backspace', does: 'give the selected readings their original values' },
      { keys: 'Shift + Delete', does: 'delete the selected readings' },
    ],
  },
  {
    title: 'On a heading',
    shortcuts: [
      { keys: 'Enter', does: 'sort up, then down, then not' },
      { keys: 'Shift + Enter', does: 'sort by this one too, behind the others' },
      { keys: 'Ctrl + ←, Ctrl + →', does: 'move the column' },
      { keys: 'Shift + ←, Shift + →', does: 'make it narrower or wider' },
      { keys: 'P', does: 'pin it, so that it stays in sight, or let it go' },
      { keys: 'Delete', does: 'hide it; “columns” above the grid brings it back' },
    ],
  },
];
