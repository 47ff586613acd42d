// A hull drawn elsewhere: an STL picked by touch, what was found in words, units and axes, into the boat and out again.
import assert from 'node:assert/strict';
import { after, before } from 'node:test';
import { control, phoneTests, reveal, settle, shoot, sleep, startBrowser, state, tap, typeNumber } from './phone.mjs';

let started;
before(async () => { started = await startBrowser(); });
after(async () => { await started?.close(); });
const onPhone = phoneTests(() => started, { ratio: 2, arrive: phone => tap(phone, 'section.hull') });

/** Faces of a hull of revolution along x, a little fuller astern: lists of three corners. */
function hull(length, radius, rings = 30, sides = 24) {
  const point = (i, k) => {
    const t = i / rings, r = radius * Math.sqrt(4 * t * (1 - t)) * (1.2 - 0.4 * t), angle = 2 * Math.PI * k / sides;
    return [length * t, r * Math.sin(angle), r * Math.cos(angle)];
  };
  const faces = [];
  for (let i = 0; i < rings; ++i)
    for (let k = 0; k < sides; ++k) {
      if (i + 1 < rings) faces.push([point(i, k), point(i + 1, k), point(i + 1, k + 1)]);
      if (i > 0) faces.push([point(i, k), point(i + 1, k + 1), point(i, k + 1)]);
    }
  return faces;
}

function binaryStl(faces) {
  const bytes = Buffer.alloc(84 + 50 * faces.length);
  bytes.writeUInt32LE(faces.length, 80);
  faces.forEach((face, i) => face.forEach((p, k) => p.forEach((x, j) => bytes.writeFloatLE(x, 84 + 50 * i + 12 + 12 * k + 4 * j))));
  return bytes;
}

async function pick(phone, name, bytes) {
  const [chooser] = await Promise.all([phone.page.waitForEvent('filechooser'), tap(phone, 'add.mesh')]);
  await chooser.setFiles({ name, mimeType: 'application/octet-stream', buffer: Buffer.from(bytes) });
}
/** The control, as soon as it is there. */
async function comes(phone, name) {
  for (const end = Date.now() + 60000; Date.now() < end; await sleep(50)) {
    const found = (await state(phone)).controls.find(c => c.name === name);
    if (found) return found;
  }
  throw new Error(`no ${name}: ${(await state(phone)).notice}`);
}
async function ready(phone) {
  await comes(phone, 'mesh.use');
  return settle(phone);
}
const words = async phone => (await state(phone)).controls.map(c => c.label).join('\n');
const number = async (phone, name) => parseFloat((await control(phone, name)).label);

onPhone('a binary STL is picked by touch, looked at, put into the boat and taken out again', async phone => {
  await pick(phone, 'my hull.stl', binaryStl(hull(36, 2)));
  await ready(phone);
  const found = (await control(phone, 'mesh.found')).value;
  assert.match(found, /STL, binary/);
  assert.match(found, /Closed all round/);
  assert.match(found, /1392 triangles, 698 vertices, in 1 piece/);
  assert.match(found, /keeps all 1392 triangles/);
  await shoot(phone, 'mesh-found');
  // 36 steps are about as long as the boat if they are inches; each unit says what it would come to.
  assert.equal(await phone.page.locator('#mirror [data-name="mesh.unit.inch"]').getAttribute('aria-current'), 'true');
  assert.match((await control(phone, 'mesh.unit.mm')).label, /1 mm: 36\s×\s4/);
  await tap(phone, 'mesh.unit.cm');
  assert.equal(await number(phone, 'mesh.length'), 360);
  await typeNumber(phone, 'mesh.length', '900');
  assert.equal(await number(phone, 'mesh.length'), 900);
  assert.match(await words(phone), /The drawing times 2\.5/);
  await shoot(phone, 'mesh-length');
  await tap(phone, 'mesh.forward.minus-x');
  await tap(phone, 'mesh.up.y');
  await reveal(phone, 'mesh.found');
  await shoot(phone, 'mesh-axes');
  await tap(phone, 'mesh.use');
  const after = await state(phone);
  assert.match(after.notice, /my_hull\.stl is in the boat now, as hull\. Undo takes it back/);
  await shoot(phone, 'mesh-used');
  assert.equal(await number(phone, 'skins[0].form.size.x'), 900);
  await tap(phone, 'undo');
  assert.ok(!(await state(phone)).controls.some(c => c.name === 'skins[0].form.size.x'));
});

onPhone('a body with a hole and faces turned round: what was found and mended is said, and it is no solid', async phone => {
  const faces = hull(900, 50).slice(6);
  for (let i = 0; i < faces.length; i += 9) faces[i].reverse();
  faces.push(faces[10], faces[11]);
  await pick(phone, 'open.STL', binaryStl(faces));
  await ready(phone);
  const found = (await control(phone, 'mesh.found')).value;
  assert.match(found, /Not closed all round: it can be a skin, not a solid/);
  assert.match(found, /Open: \d+ edges .* in 1 ring/);
  assert.match(found, /2 triangles that were there twice left out/);
  assert.match(found, /triangles turned to face the way of the neighbours/);
  assert.ok(!(await state(phone)).controls.some(c => c.name === 'mesh.wall.solid'));
  await reveal(phone, 'mesh.thickness');
  await shoot(phone, 'mesh-open');
  await tap(phone, 'mesh.drop');
  await control(phone, 'add.mesh');
});

onPhone('a broken file and a file that is no mesh are refused in words; the boat stays', async phone => {
  const thickness = (await control(phone, 'skins[0].thickness')).label;
  const good = binaryStl(hull(900, 50));
  for (const [bytes, fault] of [[good.subarray(0, 5000), /hull\.stl was not opened: number of triangles in the head is 1392, but the file holds 98/],
    ['solid a\nfacet normal 0 0 1\nouter loop\nvertex 1 2 x\n', /line 4 \(triangle 1\) is "x"/],
    ['<html>not found</html>', /an STL or OBJ with at least one triangle/]]) {
    await pick(phone, 'hull.stl', bytes);
    for (let i = 0; i < 100 && !(await state(phone)).notice; ++i) await sleep(30);
    await settle(phone);
    assert.match((await state(phone)).notice, fault);
    assert.equal((await control(phone, 'skins[0].thickness')).label, thickness);
    if (fault.source.startsWith('line')) await shoot(phone, 'mesh-refused');
    await tap(phone, 'notice.ok');
  }
});

onPhone('an OBJ is dropped on the page; it may be one piece more, where the drawing has it', async phone => {
  const before = (await state(phone)).controls.filter(c => /^skins\[\d+\]\.mass\.open$/.test(c.name)).length;
  await tap(phone, 'section.water');
  await phone.page.evaluate(() => {
    const corners = [[0, 0, 0], [80, 0, 0], [80, 20, 0], [0, 20, 0], [0, 0, 30], [80, 0, 30], [80, 20, 30], [0, 20, 30]];
    const text = corners.map(([x, y, z]) => `v ${x + 400} ${y - 10} ${z + 90}`).join('\n') +
      '\nf 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n';
    const transfer = new DataTransfer();
    transfer.items.add(new File([text], 'box.obj'));
    document.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
  });
  await ready(phone);
  assert.match((await control(phone, 'mesh.found')).value, /OBJ\. Closed all round/);
  await tap(phone, 'mesh.unit.mm');
  await tap(phone, 'mesh.wall.solid');
  await tap(phone, 'mesh.instead.more');
  await tap(phone, 'mesh.as-in-file');
  assert.equal(await number(phone, 'mesh.position.x'), 400);
  assert.equal(await number(phone, 'mesh.position.z'), 90);
  await shoot(phone, 'mesh-piece');
  await tap(phone, 'mesh.use');
  assert.equal((await state(phone)).controls.filter(c => /^skins\[\d+\]\.mass\.open$/.test(c.name)).length, before + 1);
  assert.equal(await number(phone, `skins[${before}].position.x`), 400);
});

onPhone('a fine mesh shows how far it is, can be stopped, and its link says how much simpler it is', async phone => {
  const fine = binaryStl(hull(900, 50, 400, 200));   // 160,000 triangles
  await pick(phone, 'fine.stl', fine);
  const { value } = await comes(phone, 'mesh.progress');   // the file arrives a moment after the finger is up
  assert.match(value, /(Loading|Reading|Checking|Thinning) fine\.stl: \d+\s%/);
  await phone.page.screenshot({ path: `${process.env.PONDTRIM_ARTIFACTS ?? 'build/artifacts'}/mesh-progress.png` });
  await phone.page.evaluate(() => document.querySelector('#mirror [data-name="mesh.stop"]').click());
  await settle(phone);
  await control(phone, 'add.mesh');
  await pick(phone, 'fine.stl', fine);
  await ready(phone);
  assert.match((await control(phone, 'mesh.found')).value, /Of 159600 triangles the boat keeps \d+: no corner of the drawing is farther than/);
  await tap(phone, 'mesh.try-all');
  await comes(phone, 'mesh.tried-all');
  await settle(phone);
  const tried = (await control(phone, 'mesh.tried-all')).value;
  const off = tried.match(/^With all 159600 triangles she floats ([\d.]+)\smm deep at the bow mark and ([\d.]+)\smm at the stern mark; with those that the boat keeps ([\d.]+)\smm (deeper|less deep) and ([\d.]+)\smm (deeper|less deep)\.$/);
  assert.ok(off, tried);
  assert.ok(Number(off[3]) < 1 && Number(off[5]) < 1, tried);
  await reveal(phone, 'mesh.tried-all');
  await shoot(phone, 'mesh-tried-all');
  await tap(phone, 'mesh.mirrored');   // another body: what was said is not of it
  assert.ok(!(await state(phone)).controls.some(c => c.name === 'mesh.tried-all'));
  await tap(phone, 'mesh.try-all');
  await phone.page.evaluate(() => document.querySelector('#mirror [data-name="mesh.stop-trying"]')?.click());
  await settle(phone);
  await tap(phone, 'mesh.use');
  await tap(phone, 'section.pass-on');
  assert.match((await control(phone, 'pass-on.simpler')).value, /The link carries a simpler hull: \d+ triangles, within \d+\.\d\smm/);
  await reveal(phone, 'pass-on.simpler');
  await shoot(phone, 'mesh-link');
});
