// A plain static file server for the built page: right MIME types, nothing cached, nothing else.
// As a program: node web/server.mjs FOLDER PORT. Tests import startServer and take a free port (0).
import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { networkInterfaces } from 'node:os';
import { extname, join, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const kTypes = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.wasm': 'application/wasm',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.ico': 'image/x-icon',
  '.ttf': 'font/ttf',
  '.stl': 'model/stl',
  '.txt': 'text/plain; charset=utf-8',
};

/** The file that a request path means, or null when it is not one inside `root`. */
async function findFile(root, url) {
  let path;
  try {
    path = decodeURIComponent(new URL(url, 'http://page').pathname);
  } catch {
    return null;
  }
  if (path.includes('\0')) return null;
  const wanted = path.endsWith('/') ? path + 'index.html' : path;
  try {
    const file = await realpath(join(root, wanted));
    const found = await stat(file);
    return file.startsWith(root + sep) && found.isFile() ? { file, size: found.size } : null;
  } catch {
    return null;
  }
}

async function answer(root, request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.writeHead(405, { Allow: 'GET, HEAD' }).end();
    return;
  }
  const found = await findFile(root, request.url);
  if (!found) {
    response.writeHead(404, { 'Content-Type': kTypes['.txt'] }).end('not found\n');
    return;
  }
  response.writeHead(200, {
    'Content-Type': kTypes[extname(found.file)] ?? 'application/octet-stream',
    'Content-Length': found.size,
    'Cache-Control': 'no-cache',
    'X-Content-Type-Options': 'nosniff',
  });
  if (request.method === 'HEAD') response.end();
  else createReadStream(found.file).on('error', () => response.destroy()).pipe(response);
}

/** Serves `folder` on `port` (0: any free one) of all interfaces; resolves to { server, port }. */
export async function startServer(folder, port = 0) {
  const root = await realpath(resolve(folder));
  const server = createServer((request, response) => answer(root, request, response));
  await new Promise((listening, failed) => server.once('error', failed).listen(port, listening));
  return { server, port: server.address().port };
}

function printAddresses(port) {
  const others = Object.values(networkInterfaces()).flat()
    .filter((address) => address.family === 'IPv4' && !address.internal)
    .map((address) => `http://${address.address}:${port}/`);
  console.log(`On this machine:  http://localhost:${port}/`);
  for (const address of others) console.log(`From a phone:     ${address}`);
  console.log('A browser keeps the page for use without a signal only when it came from localhost or over https; ' +
    'over plain http a phone must have the network each time.');
  console.log('Stop with Ctrl-C.');
}

async function main([folder, port]) {
  try {
    const started = await startServer(folder, Number(port));
    printAddresses(started.port);
  } catch (error) {
    const why = error.code === 'EADDRINUSE' ? `port ${port} is in use: choose another with --port N` : error.message;
    console.error(`Cannot serve ${folder}: ${why}`);
    process.exit(1);
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main(process.argv.slice(2));
