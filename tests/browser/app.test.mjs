// The real page in Chromium at phone size, worked by touch.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import * as hand from './phone.mjs';

let browser;
before(async () => { browser = await hand.startBrowser(); });
after(async () => { await browser.close(); });

const onPhone = hand.phoneTests(() => browser);

const byName = async (phone, pattern) => {
  const found = (await hand.state(phone)).controls.find(c => pattern.test(c.name));
  assert.ok(found, `a control like ${pattern}`);
  return found.name;
};

onPhone('the page loads, draws, and asks no other place for anything', async phone => {
  const s = await hand.state(phone);
  assert.match(s.sentence, /^Floats /);
  assert.ok(Number.isFinite(s.empty.bow.draft_mm));
  assert.deepEqual([...phone.origins], [new URL(phone.url).origin]);
  // Something is in the picture: it is not all of one colour.
  const { rgba } = await hand.picture(phone), colours = new Set();
  for (let i = 0; i < rgba.length; i += 4 * 97) colours.add((rgba[i] << 16) | (rgba[i + 1] << 8) | rgba[i + 2]);
  assert.ok(colours.size > 30, `${colours.size} colours`);
});

onPhone('a browser that does not say how high a line is draws the letters where others do', async phone => {
  const usual = await hand.picture(phone);
  await phone.page.addInitScript(() => {
    delete TextMetrics.prototype.fontBoundingBoxAscent;
    delete TextMetrics.prototype.fontBoundingBoxDescent;
  });
  await phone.page.reload();
  await hand.settle(phone);
  const { rgba } = await hand.picture(phone);
  assert.equal(rgba.length, usual.rgba.length);
  let dark = 0, moved = 0;
  for (let i = 0; i < rgba.length; i += 4) {
    if (usual.rgba[i] < 60) ++dark;
    if (Math.abs(usual.rgba[i] - rgba[i]) > 60) ++moved;
  }
  assert.ok(dark > 1000 && moved < dark / 10, `${moved} pixels differ, ${dark} are dark`);
});

onPhone('the first picture is the one that stays', async phone => {
  await phone.page.addInitScript(() => {
    const usual = globalThis.requestAnimationFrame, drawn = globalThis.drawn = [];
    let before = 0;
    globalThis.requestAnimationFrame = work => usual(now => {
      work(now);
      const { ready, frames } = globalThis.pondtrimState?.() ?? {};
      if (ready && frames > before) drawn.push(document.getElementById('canvas').toDataURL());
      before = frames ?? 0;
    });
  });
  await phone.page.reload();
  await hand.settle(phone);
  const drawn = await phone.page.evaluate('drawn');
  assert.ok(drawn.length > 1 && drawn[0].length > 10000);
  assert.equal(new Set(drawn).size, 1, `${drawn.length} pictures, not all the same`);
});

/** On each of these pages controls are as large as a thumb, cover no other and lie within the window. */
async function thumbsFit(phone, sections) {
  for (const section of sections) {
    await hand.tap(phone, `section.${section}`);
    const { controls } = await hand.state(phone);
    const touchable = controls.filter(c => ['button', 'slider'].includes(c.role));
    assert.ok(touchable.length > 10);
    for (const { name, whole: [l, t, r, b] } of touchable) {
      assert.ok(r - l >= 44 && b - t >= 44, `${name} is ${r - l} x ${b - t} CSS px`);
      if (!name.startsWith('section.')) assert.ok(l >= 0 && r <= hand.kPhone.width, `${name} from ${l} to ${r}`);
    }
    const seen = touchable.filter(({ rect: [l, t, r, b] }) => r > l && b > t);
    for (const a of seen) for (const o of seen) {
      if (a === o) continue;
      const [al, at, ar, ab] = a.rect, [ol, ot, or, ob] = o.rect;
      const wide = Math.min(ar, or) - Math.max(al, ol), tall = Math.min(ab, ob) - Math.max(at, ot);
      assert.ok(wide < 1 || tall < 8, `${a.name} lies over ${o.name}`);
    }
  }
}

onPhone('every control is large enough for a thumb and covers no other', phone => thumbsFit(phone, ['foam-lead', 'plan',
  'pond', 'weights', 'cylinder', 'tank', 'hull', 'water', 'dive', 'heel', 'pump', 'depth', 'numbers', 'boat', 'pass-on']));

onPhone('letters of twice the size: all still fits, and a reload keeps them', async phone => {
  const lines = async () => {
    const { whole: [, top, , bottom] } = await hand.control(phone, 'sentence');
    return bottom - top;
  };
  const usual = await lines();
  await hand.tap(phone, 'section.boat');
  await hand.tap(phone, 'text-size.largest');
  await thumbsFit(phone, ['foam-lead', 'plan', 'boat']);
  assert.ok(await lines() > 2 * usual, 'the sentence takes more and higher lines');
  await phone.page.reload();
  await hand.settle(phone);
  assert.ok(await lines() > 2 * usual);
});

onPhone('a finger on the battery slider moves the waterline, and undo brings it back', async phone => {
  const first = await hand.state(phone);
  await hand.tap(phone, 'section.weights');
  const row = (await hand.state(phone)).controls.find(c => c.role === 'slider' && c.label === 'battery');
  assert.ok(row, 'a slider for the battery');
  await hand.slide(phone, row.name, 0.95, 0.5);
  const heavy = await hand.state(phone);
  assert.ok(heavy.empty.total_mass_g > first.empty.total_mass_g + 50);
  assert.ok(heavy.empty.bow.draft_mm + heavy.empty.stern.draft_mm >
    first.empty.bow.draft_mm + first.empty.stern.draft_mm + 1);
  await hand.tap(phone, 'undo');
  const back = await hand.state(phone);
  assert.equal(back.empty.bow.draft_mm, first.empty.bow.draft_mm);
  await hand.tap(phone, 'redo');
  assert.equal((await hand.state(phone)).empty.bow.draft_mm, heavy.empty.bow.draft_mm);
});

onPhone('nudging lead by 5 g sinks her by the reported amount', async phone => {
  const lead = (await hand.state(phone)).controls.find(c => /^parts.*mass\.slider$/.test(c.name)).name.replace('.slider', '');
  const before = await hand.state(phone);
  await hand.tap(phone, `${lead}.up`);
  const after = await hand.state(phone);
  assert.ok(Math.abs(after.empty.total_mass_g - before.empty.total_mass_g - 5) < 1e-6);
  assert.ok(after.empty.bow.draft_mm !== before.empty.bow.draft_mm);
});

onPhone('the tank slider takes her down', async phone => {
  const first = await hand.state(phone);
  await hand.slide(phone, 'fill.slider', 1, 0);
  const full = await hand.state(phone);
  assert.equal(full.fill_share, 1);
  assert.ok(full.now.sail_showing_mm < first.now.sail_showing_mm - 20 || full.now.outcome === 'sinks');
  await hand.tap(phone, 'fill.empty');
  assert.equal((await hand.state(phone)).now.sail_showing_mm, first.now.sail_showing_mm);
});

onPhone('a wrong number is refused with a reason, and the boat stays', async phone => {
  const foam = (await hand.state(phone)).controls.find(c => c.role === 'slider' && /foam/.test(c.label)).name.replace('.slider', '');
  await hand.typeNumber(phone, foam, '99999');
  assert.match((await hand.state(phone)).notice, /^99999\u00a0mL cannot be: bow foam, .*length is .*allowed: /);
  await hand.tap(phone, 'pad.cancel');
  await hand.tap(phone, 'section.cylinder');
  const before = await hand.state(phone);
  await hand.typeNumber(phone, 'cylinders[0].diameter', '0');
  const refused = await hand.state(phone);
  assert.match(refused.notice, /diameter is 0 mm/);
  assert.equal(refused.revision, before.revision);
  await hand.tap(phone, 'pad.cancel');
  await hand.typeNumber(phone, 'cylinders[0].diameter', '81.5');
  const after = await hand.state(phone);
  assert.equal(after.notice, null);
  assert.match((await hand.control(phone, 'cylinders[0].diameter')).value || (await hand.control(phone, 'cylinders[0].diameter')).label, /81\.5/);
  assert.ok(after.empty.bow.line_above_water_mm > before.empty.bow.line_above_water_mm - 50);
  assert.notEqual(after.empty.bow.draft_mm, before.empty.bow.draft_mm);
});

onPhone('the stepping keys of the pad are one step of undo; Cancel takes them back', async phone => {
  const keys = async names => { for (const name of names) await hand.tap(phone, name); };
  const first = await hand.state(phone), length = 'cylinders[0].length';
  await keys(['section.cylinder', length, 'pad.up', 'pad.up', 'pad.cancel']);
  const cancelled = await hand.state(phone);
  assert.equal(cancelled.empty.bow.draft_mm, first.empty.bow.draft_mm);
  await keys([length, 'pad.up', 'pad.up', 'pad.set']);
  const stepped = await hand.state(phone);
  assert.notEqual(stepped.empty.bow.draft_mm, first.empty.bow.draft_mm);
  await keys(['undo']);
  assert.equal((await hand.state(phone)).empty.bow.draft_mm, first.empty.bow.draft_mm);
});

onPhone('a reload brings the same boat back; a damaged store is set aside', async phone => {
  const lead = (await hand.state(phone)).controls.find(c => /^parts.*mass\.slider$/.test(c.name)).name.replace('.slider', '');
  await hand.tap(phone, `${lead}.up`);
  const edited = await hand.state(phone);
  await phone.page.reload();
  await hand.settle(phone);
  assert.equal((await hand.state(phone)).empty.bow.draft_mm, edited.empty.bow.draft_mm);
  // The way back is there too.
  await hand.tap(phone, 'undo');
  assert.notEqual((await hand.state(phone)).empty.bow.draft_mm, edited.empty.bow.draft_mm);
  await hand.tap(phone, 'redo');
  assert.equal((await hand.state(phone)).empty.bow.draft_mm, edited.empty.bow.draft_mm);
  await hand.keepText(phone, 'boat', '{"pondtrim_boat": 1, ');
  await phone.page.reload();
  await hand.settle(phone);
  const fresh = await hand.state(phone);
  assert.match(fresh.notice, /set aside/);
  assert.match(fresh.sentence, /^Floats /);
  assert.equal(await hand.keptText(phone, 'boat-set-aside'), '{"pondtrim_boat": 1, ');
});

onPhone('a boat that was worked on is among your boats when another one is opened', async phone => {
  const press = async name => {   // by the mirror: the list is long, and scrolling it is tested elsewhere
    await phone.page.evaluate(n => document.querySelector(`#mirror [data-name="${n}"]`).click(), name);
    await hand.settle(phone);
  };
  const lead = (await hand.state(phone)).controls.find(c => /^parts.*mass\.slider$/.test(c.name)).name.replace('.slider', '');
  const { boat } = await hand.state(phone);
  await hand.tap(phone, `${lead}.up`);
  const edited = await hand.state(phone);
  await hand.tap(phone, 'section.boat');
  const other = (await hand.state(phone)).controls.find(c => c.name.startsWith('preset.') && c.name !== `preset.${boat}`);
  await press(other.name);
  assert.notEqual((await hand.state(phone)).boat, boat);
  await phone.page.reload();
  await hand.settle(phone);
  await hand.tap(phone, 'section.boat');
  await press(`shelf.${boat}`);
  const back = await hand.state(phone);
  assert.equal(back.empty.bow.draft_mm, edited.empty.bow.draft_mm);
  await press(`shelf.${boat}.remove`);
  await press(`shelf.${boat}.remove`);
  assert.ok(!(await hand.state(phone)).controls.some(c => c.name === `shelf.${boat}`));
});

onPhone('inches and ounces at any time: fractions are typed, and a reload keeps the choice', async phone => {
  const before = await hand.state(phone);
  await hand.tap(phone, 'section.boat');
  await hand.tap(phone, 'units.inches');
  const inches = await hand.state(phone);
  assert.match(inches.sentence, /\u00a0in of sail/);
  assert.equal(inches.revision, before.revision);   // the boat is the same
  assert.equal(inches.empty.bow.draft_mm, before.empty.bow.draft_mm);
  await hand.tap(phone, 'section.cylinder');
  await hand.typeNumber(phone, 'cylinders[0].diameter', ['3', '1/4', '1/16']);
  assert.match((await hand.control(phone, 'cylinders[0].diameter')).label, /^3\u00a05\/16\u00a0in$/);
  await hand.tap(phone, 'cylinders[0].diameter');
  await hand.tap(phone, 'pad.up');
  await hand.tap(phone, 'pad.set');
  assert.match((await hand.control(phone, 'cylinders[0].diameter')).label, /^3\u00a03\/8\u00a0in$/);
  await hand.shoot(phone, 'phone-inches');
  await phone.page.reload();
  await hand.settle(phone);
  assert.match((await hand.state(phone)).sentence, /\u00a0in high/);
  await hand.tap(phone, 'section.boat');
  await hand.tap(phone, 'units.metric');
  assert.match((await hand.state(phone)).sentence, /\u00a0mm high/);
});

onPhone('a quick flick scrolls the panel by its way, and does not glide on where motion is to be reduced', async phone => {
  const top = async () => (await hand.state(phone)).controls.find(c => c.name === 'add.foam').whole[1];
  const flick = async way => {   // fast, and lifted while moving: the browser may give it as one move
    const touch = (type, points) => phone.devtools.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });
    const before = await top(), from = way < 0 ? 600 : 480;
    await touch('touchStart', [[340, from]]);
    for (let i = 1; i <= 5; ++i) await touch('touchMove', [[340, from + way * i / 5]]);
    await touch('touchEnd', []);
    await hand.settle(phone);
    return await top() - before;
  };
  const before = await hand.state(phone);
  await phone.page.emulateMedia({ reducedMotion: 'reduce' });
  const up = await flick(-120);
  assert.ok(up >= -121 && up <= -110, `${up} CSS px for a finger's way of -120`);   // but for the slop
  const down = await flick(90);
  assert.ok(down >= 80 && down <= 91, `${down} CSS px for a finger's way of 90`);
  assert.equal((await hand.state(phone)).revision, before.revision);   // no key was pressed
});

onPhone('nothing is drawn while nothing changes', async phone => {
  const before = (await hand.state(phone)).frames;
  await hand.sleep(3000);
  assert.equal((await hand.state(phone)).frames, before);
  await hand.tap(phone, 'fill.full');
  assert.ok((await hand.state(phone)).frames > before);
});

onPhone('a lost picture comes back', async phone => {
  await phone.page.evaluate(() => {
    const gl = document.getElementById('canvas').getContext('webgl2');
    globalThis.loseContext = gl.getExtension('WEBGL_lose_context');
    globalThis.loseContext.loseContext();
  });
  await hand.sleep(200);
  const lost = (await hand.state(phone)).frames;
  await phone.page.evaluate(() => globalThis.loseContext.restoreContext());
  await hand.sleep(300);
  await hand.settle(phone);
  await hand.tap(phone, 'fill.full');
  const after = await hand.state(phone);
  assert.ok(after.frames > lost);
  assert.equal(after.fill_share, 1);
  await hand.shoot(phone, 'after-context-loss');
});

onPhone('pinch zooms the picture, not the page; one finger turns it', async phone => {
  await hand.tap(phone, 'view.around');
  const before = await hand.state(phone);
  await hand.twoFingers(phone, [195, 140, 80], [195, 140, 160]);
  await hand.drag(phone, [150, 130], [230, 130]);
  const after = await hand.state(phone);
  assert.ok(after.zoom > 1.5, `zoom ${after.zoom}`);
  assert.ok(Math.abs(after.yaw - before.yaw) > 0.3);
  assert.equal(await phone.page.evaluate('visualViewport.scale'), 1);
  assert.deepEqual(await phone.page.evaluate('[scrollX, scrollY]'), [0, 0]);
});

onPhone('two fingers drag the picture along', async phone => {
  const before = await hand.state(phone);
  await hand.twoFingers(phone, [150, 120, 90], [210, 150, 90]);
  const after = await hand.state(phone);
  const [right, up] = [after.pan[0] - before.pan[0], after.pan[1] - before.pan[1]];
  // A metre of boat is about as wide as the phone; the fingers went 60 px across and half as far down.
  assert.ok(Math.abs(right) > 0.05 && Math.abs(right) < 0.5, `pan ${after.pan}`);
  assert.ok(Math.abs(Math.abs(right / up) - 2) < 0.2, `pan ${after.pan}`);
  assert.ok(Math.abs(after.zoom / before.zoom - 1) < 0.05);
  assert.ok(Math.abs(after.yaw - before.yaw) < 0.01);
  assert.deepEqual(await phone.page.evaluate('[scrollX, scrollY]'), [0, 0]);
  const { rect: [l, t, r, b] } = await hand.control(phone, 'picture');
  await hand.shoot(phone, 'panned');
  assert.ok(r > l && b > t);
});

onPhone('a tap on a part in the picture opens it, the one further forward on the right', async phone => {
  const { rect: [l, t, r, b] } = await hand.control(phone, 'picture');
  const opened = async share => {   // the nearest part along a line through the hull
    for (const y of [0.5, 0.56, 0.62, 0.68, 0.44]) {
      await phone.page.touchscreen.tap(l + share * (r - l), t + y * (b - t));
      await hand.settle(phone);
      const place = (await hand.state(phone)).controls.find(c => /^parts\[\d+\]\.position\.x$/.test(c.name));
      if (!place) continue;
      const [left, top, right, bottom] = place.rect;
      assert.ok(bottom - top > 20 && right > left, 'its numbers are in sight, without scrolling');
      return { name: place.name, x: parseFloat(place.label.match(/[\d.]+/)[0]) };
    }
    return null;
  };
  const found = [];
  for (const share of [0.2, 0.35, 0.5, 0.65, 0.8]) {
    const part = await opened(share);
    if (part && !found.some(f => f.name === part.name)) found.push(part);
  }
  assert.ok(found.length >= 2, JSON.stringify(found));
  for (let i = 1; i < found.length; ++i) assert.ok(found[i].x > found[i - 1].x, JSON.stringify(found));
  await hand.shoot(phone, 'tapped-part');
});

onPhone('a part can be added, moved and taken away by touch', async phone => {
  await hand.tap(phone, 'add.foam');
  const opened = await hand.state(phone);
  const place = await byName(phone, /position\.x$/);
  await hand.typeNumber(phone, place, '300');
  await hand.tap(phone, place.replace('position.x', 'remove'));
  const gone = await hand.state(phone);
  assert.ok(!gone.controls.some(c => c.name === place));
  assert.ok(gone.revision > opened.revision);
});

onPhone('a boat is saved as a file, opened again, and a broken file is refused', async phone => {
  await hand.tap(phone, 'section.boat');
  const [download] = await Promise.all([phone.page.waitForEvent('download'), hand.tap(phone, 'file.save')]);
  assert.match(download.suggestedFilename(), /\.boat\.json$/);
  const text = readFileSync(await download.path(), 'utf8');
  const boat = JSON.parse(text);
  const give = async (name, content) => {
    const [chooser] = await Promise.all([phone.page.waitForEvent('filechooser'), hand.tap(phone, 'file.open')]);
    await chooser.setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(content) });
    await hand.sleep(200);
    await hand.settle(phone);
  };
  boat.name = 'Club boat';
  await give('club.boat.json', JSON.stringify(boat));
  assert.equal((await hand.state(phone)).boat, 'Club boat');
  await give('broken.boat.json', text.slice(0, 200));
  const refused = await hand.state(phone);
  assert.match(refused.notice, /broken\.boat\.json was not opened/);
  assert.equal(refused.boat, 'Club boat');
});

onPhone('where the browser may clear what it holds, the Boat page says so beside your boats; else it does not', async phone => {
  const warned = async firm => {
    await phone.page.addInitScript(answer => { navigator.storage.persist = async () => answer; }, firm);
    await phone.page.reload();
    await hand.settle(phone);
    await hand.tap(phone, 'section.boat');
    const { controls } = await hand.state(phone);
    const at = controls.findIndex(c => /may clear what it holds/.test(c.label));
    if (at >= 0) assert.equal(controls[at + 1].name, 'shelf.keep');
    return at >= 0;
  };
  assert.equal(await warned(false), true);
  assert.equal(await warned(true), false);
});

onPhone('the boat gets a new name through the keyboard of the phone', async phone => {
  await hand.tap(phone, 'section.boat');
  await hand.tap(phone, 'name');
  assert.equal(await phone.page.evaluate('document.activeElement.id'), 'typing');
  await phone.page.keyboard.type(' two');
  await hand.settle(phone);
  await phone.page.keyboard.press('Enter');
  await hand.settle(phone);
  assert.match((await hand.state(phone)).boat, / two$/);
});

test('keyboard and mouse on a desk', async () => {
  const desk = await hand.openPhone(browser, { size: { width: 1280, height: 800 }, touch: false });
  const { rect: [l, t, r, b] } = await hand.control(desk, 'fill.full');
  await desk.page.mouse.click((l + r) / 2, (t + b) / 2);
  await hand.settle(desk);
  assert.equal((await hand.state(desk)).fill_share, 1);
  await hand.shoot(desk, 'desk-1280x800');
  assert.deepEqual(desk.errors, []);
  await desk.context.close();
});

test('pictures of every section, to be looked at', async () => {
  const phone = await hand.openPhone(browser, { ratio: 3 });
  await hand.shoot(phone, 'phone-390x844');
  await hand.tap(phone, 'fill.full');
  await hand.shoot(phone, 'phone-390x844-dived');
  await hand.tap(phone, 'view.around');
  await hand.shoot(phone, 'phone-390x844-around');
  await phone.context.close();
  const wide = await hand.openPhone(browser, { size: { width: 844, height: 390 }, ratio: 2 });
  await hand.shoot(wide, 'phone-844x390');
  await wide.context.close();
});
