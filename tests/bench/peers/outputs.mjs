// All that a cut gives, from triangles: the numbers of a line of `kernels_bench planes` after the plane, that is volume,
// moment, area of the waterplane, its first moment and its second (xx yy zz xy xz yz).

export const kOutputs = 14;
const corners = new Float64Array(9);   // of the triangle at hand: no array is made for each

function load(v, stride, i, j, k) {
  for (let axis = 0; axis < 3; ++axis) {
    corners[axis] = v[stride * i + axis];
    corners[3 + axis] = v[stride * j + axis];
    corners[6 + axis] = v[stride * k + axis];
  }
}

/** Adds the tetrahedron from the triangle to a point of the plane: a lid on the plane adds nothing, it need not be there. */
function addVolume(out, { up, level }) {
  const ox = up[0] * level, oy = up[1] * level, oz = up[2] * level;
  const ax = corners[0] - ox, ay = corners[1] - oy, az = corners[2] - oz;
  const bx = corners[3] - ox, by = corners[4] - oy, bz = corners[5] - oz;
  const cx = corners[6] - ox, cy = corners[7] - oy, cz = corners[8] - oz;
  const volume = (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
  out[0] += volume;
  out[1] += volume * (ox + (ax + bx + cx) / 4);
  out[2] += volume * (oy + (ay + by + cy) / 4);
  out[3] += volume * (oz + (az + bz + cz) / 4);
}

/** Adds the triangle's shadow on the plane, area and moments, `sign` times. All the skin's shadows are the lid's, turned over. */
function addShadow(out, { up, level }, sign) {
  const [ux, uy, uz] = up;
  for (let at = 0; at < 9; at += 3) {
    const height = ux * corners[at] + uy * corners[at + 1] + uz * corners[at + 2] - level;
    corners[at] -= height * ux;
    corners[at + 1] -= height * uy;
    corners[at + 2] -= height * uz;
  }
  const [ax, ay, az, bx, by, bz, cx, cy, cz] = corners, ex = bx - ax, ey = by - ay, ez = bz - az, fx = cx - ax, fy = cy - ay, fz = cz - az;
  const area = sign / 2 * (ux * (ey * fz - ez * fy) + uy * (ez * fx - ex * fz) + uz * (ex * fy - ey * fx));
  const sx = ax + bx + cx, sy = ay + by + cy, sz = az + bz + cz, k = area / 12;
  out[4] += area;
  out[5] += area * sx / 3;
  out[6] += area * sy / 3;
  out[7] += area * sz / 3;
  out[8] += k * (ax * ax + bx * bx + cx * cx + sx * sx);
  out[9] += k * (ay * ay + by * by + cy * cy + sy * sy);
  out[10] += k * (az * az + bz * bz + cz * cz + sz * sz);
  out[11] += k * (ax * ay + bx * by + cx * cy + sx * sy);
  out[12] += k * (ax * az + bx * bz + cx * cz + sx * sz);
  out[13] += k * (ay * az + by * bz + cy * cz + sy * sz);
}

/** Of the body under the plane. `skin` ends where the triangles of a lid begin, if there is one; with `volumeOnly` the outputs
 * stop after the moment. */
export function outputsOf({ vertices, stride = 3, triangles, end = triangles.length, skin = end }, plane, volumeOnly = false) {
  const out = new Float64Array(kOutputs), lid = skin < end;
  for (let t = 0; t < end; t += 3) {
    load(vertices, stride, triangles[t], triangles[t + 1], triangles[t + 2]);
    if (t < skin) addVolume(out, plane);
    if (!volumeOnly && (t >= skin || !lid)) addShadow(out, plane, lid ? 1 : -1);
  }
  return volumeOnly ? out.subarray(0, 4) : out;
}

/** The torpedo of kernels.cpp, of about so many triangles. */
export function torpedo(count) {
  const sides = Math.round(Math.sqrt(count / 2)), vertices = [], triangles = [];
  for (let i = 0; i <= sides; ++i) for (let k = 0; k < sides; ++k) {
    const t = i / sides, angle = 2 * Math.PI * k / sides, r = 0.05 * Math.max(0, 4 * t * (1 - t)) ** 0.25;
    vertices.push(t, r * Math.sin(angle), r * Math.cos(angle));
  }
  const at = (i, k) => i * sides + k % sides;
  for (let i = 0; i < sides; ++i) for (let k = 0; k < sides; ++k) {
    if (i + 1 < sides) triangles.push(at(i, k), at(i + 1, k), at(i + 1, k + 1));
    if (i > 0) triangles.push(at(i, k), at(i + 1, k + 1), at(i, k + 1));
  }
  return { vertices, triangles };
}

/** What of the skin lies under the plane, triangle by triangle: corners under it and crossings, in order, as a fan. */
export function clipped({ vertices, triangles }, { up, level }) {
  const out = { vertices: [], triangles: [] };
  for (let t = 0; t < triangles.length; t += 3) {
    const points = [0, 1, 2].map(j => vertices.slice(3 * triangles[t + j], 3 * triangles[t + j] + 3));
    const heights = points.map(p => up[0] * p[0] + up[1] * p[1] + up[2] * p[2] - level), kept = [];
    points.forEach((p, j) => {
      const next = (j + 1) % 3;
      if (heights[j] <= 0) kept.push(p);
      if (heights[j] <= 0 !== heights[next] <= 0)
        kept.push(p.map((x, axis) => x + (points[next][axis] - x) * heights[j] / (heights[j] - heights[next])));
    });
    const first = out.vertices.length / 3;
    for (const p of kept) out.vertices.push(...p);
    for (let j = 2; j < kept.length; ++j) out.triangles.push(first, first + j - 1, first + j);
  }
  return out;
}
