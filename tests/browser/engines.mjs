// Other browsers for the tests, on a display of their own: Firefox by WebDriver BiDi, WebKitGTK by WebDriver. What
// `openFirefox` and `openWebKit` give can `go` to an address, `ask` (the value of an expression), `tap` and `shoot`.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import WebSocket from 'ws';

const kPatience = 60000;  // ms
const sleep = ms => new Promise(done => setTimeout(done, ms));

/** What a stream says where it first matches. */
const said = (stream, pattern) => new Promise((done, failed) => {
  let all = '';
  stream.on('data', text => { const found = (all += text).match(pattern); if (found) done(found[1]); });
  setTimeout(() => failed(new Error(`it never said ${pattern}; it said: ${all.slice(-400)}`)), kPatience).unref();
});

/** A display that exists in memory only; `environment` is for the programs that draw on it. */
export async function openDisplay() {
  const server = spawn('Xvfb', ['-displayfd', '3', '-screen', '0', '1280x1024x24'], { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
  const number = await said(server.stdio[3], /(\d+)\n/);
  return { environment: { ...process.env, DISPLAY: `:${number}`, LIBGL_ALWAYS_SOFTWARE: '1' }, close: () => server.kill() };
}

const finger = (x, y, type) => [{ type: 'pointer', id: 'finger', parameters: { pointerType: type }, actions: [
  { type: 'pointerMove', x: Math.round(x), y: Math.round(y), duration: 0 }, { type: 'pointerDown', button: 0 },
  { type: 'pause', duration: 60 }, { type: 'pointerUp', button: 0 }] }];

const kFirefoxChoices = { 'webgl.force-enabled': true, 'browser.shell.checkDefaultBrowser': false, 'browser.startup.page': 0,
  'datareporting.policy.dataSubmissionEnabled': false, 'app.normandy.enabled': false, 'extensions.update.enabled': false,
  'network.captive-portal-service.enabled': false, 'network.connectivity-service.enabled': false,
  'dom.w3c_touch_events.enabled': 1 };

/** Commands by number, answers by the same number. */
async function talkTo(address) {
  const socket = new WebSocket(address), waiting = new Map();
  await new Promise((done, failed) => socket.on('open', done).on('error', failed));
  socket.on('message', text => {
    const { id, type, result, message } = JSON.parse(text);
    const [done, failed] = waiting.get(id) ?? [];
    waiting.delete(id);
    if (type === 'error') failed?.(new Error(message)); else done?.(result);
  });
  let last = 0;
  return (method, params = {}) => new Promise((done, failed) => {
    waiting.set(++last, [done, failed]);
    socket.send(JSON.stringify({ id: last, method, params }));
  });
}

export async function openFirefox({ environment }, { width, height }) {
  const profile = mkdtempSync(join(tmpdir(), 'pondtrim-firefox-'));
  writeFileSync(join(profile, 'user.js'), Object.entries(kFirefoxChoices)
    .map(([name, value]) => `user_pref("${name}", ${value});`).join('\n'));
  const program = spawn('firefox-esr', ['--no-remote', '--profile', profile, '--remote-debugging-port', '0', 'about:blank'],
    { stdio: ['ignore', 'ignore', 'pipe'], env: { ...environment, HOME: profile } });
  const tell = await talkTo(await said(program.stderr, /BiDi listening on (ws:\/\/\S+)/) + '/session');
  await tell('session.new', { capabilities: {} });
  const { contexts: [{ context }] } = await tell('browsingContext.getTree');
  await tell('browsingContext.setViewport', { context, viewport: { width, height } });
  return {
    go: url => tell('browsingContext.navigate', { context, url, wait: 'complete' }),
    ask: async expression => JSON.parse((await tell('script.evaluate',
      { expression: `JSON.stringify(${expression})`, target: { context }, awaitPromise: true })).result.value ?? 'null'),
    tap: (x, y) => tell('input.performActions', { context, actions: finger(x, y, 'touch') }),
    shoot: async () => Buffer.from((await tell('browsingContext.captureScreenshot', { context })).data, 'base64'),
    async close() {
      program.kill();
      await new Promise(done => program.on('exit', done));
      rmSync(profile, { recursive: true, force: true });
    } };
}

/** WebKitGTK's own small browser: its folder's name holds the version of its interface. */
function smallBrowser() {
  const folder = '/usr/lib/x86_64-linux-gnu';
  const found = readdirSync(folder).filter(n => n.startsWith('webkit2gtk-4')).map(n => join(folder, n, 'MiniBrowser'));
  return found.find(existsSync) ?? 'MiniBrowser';
}

export async function openWebKit({ environment }, { width, height }) {
  const home = mkdtempSync(join(tmpdir(), 'pondtrim-webkit-')), port = 20000 + process.pid % 20000;
  const driver = spawn('WebKitWebDriver', [`--port=${port}`], { stdio: 'ignore',
    env: { ...environment, HOME: home, WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1' } });
  const tell = async (method, path, body) => {
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, { method, body: body && JSON.stringify(body) });
    const { value } = await answer.json();
    if (!answer.ok) throw new Error(JSON.stringify(value).slice(0, 300));
    return value;
  };
  for (const end = Date.now() + kPatience; Date.now() < end; await sleep(100))
    if (await tell('GET', '/status').catch(() => false)) break;
  const { sessionId } = await tell('POST', '/session', { capabilities: { alwaysMatch: {
    'webkitgtk:browserOptions': { binary: smallBrowser(), args: ['--automation'] } } } });
  const session = `/session/${sessionId}`;
  await tell('POST', `${session}/window/rect`, { width, height });
  return {
    go: url => tell('POST', `${session}/url`, { url }),
    ask: expression => tell('POST', `${session}/execute/sync`, { script: `return ${expression}`, args: [] }),
    tap: (x, y) => tell('POST', `${session}/actions`, { actions: finger(x, y, 'touch') }),
    shoot: async () => Buffer.from(await tell('GET', `${session}/screenshot`), 'base64'),
    async close() {
      await tell('DELETE', session).catch(() => {});
      driver.kill();
      rmSync(home, { recursive: true, force: true });
    } };
}
