import { count, oneOf, oneShapeBy, shape, text } from './fields.ts';

/** What one tab tells the others. */
export type TabNews =
  | { readonly kind: 'changed'; readonly what: ChangedKind; readonly generation: number }
  /** The sender holds the lock for writing and is alive. */
  | { readonly kind: 'busy'; readonly what: string }
  /** The sender begins or ends to bring files in. */
  | { readonly kind: 'begun' };

/** What was changed: imports, the state, or the whole bench. */
const CHANGED_KINDS = ['imports', 'state', 'bench'] as const;
export type ChangedKind = (typeof CHANGED_KINDS)[number];

const newsShape = oneShapeBy<TabNews>('kind', {
  changed: shape<Extract<TabNews, { kind: 'changed' }>>({
    kind: oneOf(['changed']),
    what: oneOf(CHANGED_KINDS),
    generation: count(),
  }),
  busy: shape<Extract<TabNews, { kind: 'busy' }>>({ kind: oneOf(['busy']), what: text }),
  begun: shape<Extract<TabNews, { kind: 'begun' }>>({ kind: oneOf(['begun']) }),
});

/** Speaks with the other tabs that have the same database open. */
export class TabChannel {
  readonly #channel: BroadcastChannel;
  readonly #listeners = new Set<(news: TabNews) => void>();

  constructor(database: string) {
    this.#channel = new BroadcastChannel(`${database} news`);
    this.#channel.onmessage = ({ data }: MessageEvent<unknown>) => {
      const news = readNews(data);
      if (news !== undefined) for (const listener of this.#listeners) listener(news);
    };
  }

  tell(news: TabNews): void {
    this.#channel.postMessage(news);
  }

  /** @returns a function that ends the listening */
  listen(listener: (news: TabNews) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  close(): void {
    this.#channel.close();
  }
}

function readNews(data: unknown): TabNews | undefined {
  try {
    return newsShape(data, 'news');
  } catch {
    return undefined;
  }
}
