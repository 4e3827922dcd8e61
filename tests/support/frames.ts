/** Waits for so many frames of the page: what the browser tells of by itself, such as scrolling, it tells before a frame is drawn. */
export async function frames(count = 2): Promise<void> {
  for (let frame = 0; frame < count; frame += 1) await new Promise(requestAnimationFrame);
}
