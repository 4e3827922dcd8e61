import { build, type Plugin } from 'vite';

const FOLDER = '/bundled-worker/';

/**
 * Gives element tests the worker as one bundle, made once a run. A development server hands it out module by module instead, some 260 requests
 * for each worker that a test starts, which cost more than all that the tests do.
 */
export function bundledWorker(entry: string): Plugin {
  let scripts: Promise<ReadonlyMap<string, string>> | undefined;
  return {
    name: 'bundled-worker',
    enforce: 'pre',
    load(id) {
      return id === `${entry}?worker&url` ? `export default ${JSON.stringify(`${FOLDER}entry.js`)};` : undefined;
    },
    configureServer({ middlewares }) {
      middlewares.use((request, response, next) => {
        const [address = ''] = (request.url ?? '').split('?');
        if (!address.startsWith(FOLDER)) {
          next();
          return;
        }
        scripts ??= bundle(entry);
        scripts.then((made) => {
          const script = made.get(address.slice(FOLDER.length));
          if (script === undefined) response.statusCode = 404;
          else response.setHeader('Content-Type', 'text/javascript');
          response.end(script);
        }, next);
      });
    },
  };
}

/** The scripts of a bundle by their names. */
async function bundle(entry: string): Promise<ReadonlyMap<string, string>> {
  const made = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      target: 'es2022',
      minify: false,
      modulePreload: false,
      rolldownOptions: {
        input: { entry },
        output: { entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js' },
      },
    },
  });
  const outputs = Array.isArray(made) ? made : [made];
  return new Map(
    outputs
      .flatMap((one) => ('output' in one ? one.output : []))
      .flatMap((item) => (item.type === 'chunk' ? [[item.fileName, item.code] as const] : [])),
  );
}
