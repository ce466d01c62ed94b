// Serves the development page with generated piles: `npm run build && npm run dev`, then http://127.0.0.1:8790/ (?count=100000 for many).
import { createServer } from 'node:http';
import { readFile } from 'node:fs/promises';
import { dirname, extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sampleAnswer, sampleDrawing } from './sample-data.js';

const here = dirname(fileURLToPath(import.meta.url)), dist = join(here, '../../../wwwroot');
const types = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml', '.png': 'image/png' };
const port = Number(process.env.PORT ?? 8790);

createServer(async (request, response) => {
  const url = new URL(request.url, 'http://localhost'), path = normalize(url.pathname);
  response.setHeader('Content-Security-Policy', "default-src 'self'; style-src 'self' 'unsafe-inline'");
  try {
    if (path === '/piles.bin') return response.end(Buffer.from(sampleAnswer(Number(url.searchParams.get('count')))));
    if (path === '/drawing.json') return response.end(JSON.stringify(sampleDrawing()));
    const file = path.startsWith('/dist/') ? join(dist, path) : join(here, path === '/' ? 'index.html' : path);
    response.setHeader('Content-Type', types[extname(file)] ?? 'application/octet-stream');
    response.end(await readFile(file));
  } catch {
    response.statusCode = 404;
    response.end('not found');
  }
}).listen(port, '127.0.0.1', () => console.log(`http://127.0.0.1:${port}/`));
