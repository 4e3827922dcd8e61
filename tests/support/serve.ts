// Builds the page, serves it and says where: npm start
import { serveBuiltPage } from './serve-built-page.ts';

const { port } = await serveBuiltPage('dist', 4173);
console.log(`Benchtally is at http://localhost:${port}/`);
