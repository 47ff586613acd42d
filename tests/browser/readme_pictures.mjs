// Makes README's pictures anew: PONDTRIM_SITE=... node tests/browser/readme_pictures.mjs
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { kPhone, openPhone, settle, sleep, startBrowser, tap } from './phone.mjs';

const folder = fileURLToPath(new URL('../../web/shell/screenshots', import.meta.url));
const started = await startBrowser();
const shown = async ({ page, context }, name) => {
  await page.screenshot({ path: join(folder, `${name}.png`) });
  await context.close();
};
const onPhone = () => openPhone(started, { size: kPhone, ratio: 2 });
try {
  await shown(await onPhone(), 'phone');
  const dived = await onPhone();
  await tap(dived, 'fill.full');
  await shown(dived, 'phone-dived');
  const planned = await onPhone();
  await tap(planned, 'section.boat');
  await tap(planned, 'preset.Crooked Sixpence (poor trim to fix)');
  await tap(planned, 'section.plan');
  await sleep(1500);   // the plan is worked out between frames
  await settle(planned);
  await shown(planned, 'phone-plan');
  await shown(await openPhone(started, { size: { width: 1280, height: 800 }, touch: false }), 'desk');
} finally {
  await started.close();
}
