// manifold-3d trims the torpedo by a plane: a new closed body each time.
import Module from 'manifold-3d';
import { outputsOf } from './outputs.mjs';

/** What may be timed, by name: each a function of a plane that gives the outputs. */
export async function manifoldCuts({ vertices, triangles }) {
  const library = await Module();
  library.setup();
  const mesh = new library.Mesh({ numProp: 3, vertProperties: Float32Array.from(vertices), triVerts: Uint32Array.from(triangles) });
  mesh.merge();   // the ends are many corners at one place
  const body = new library.Manifold(mesh);
  const under = ({ up, level }, read) => {
    const part = body.trimByPlane(up.map(x => -x), -level);   // keeps what lies along the normal
    const outputs = read(part);
    part.delete();
    return outputs;
  };
  const ownVolume = part => [part.volume?.() ?? part.getProperties().volume];   // since 3.0, and before
  const allOf = (part, plane) => {
    // Triangles come sorted by the body that they are of: the torpedo, then the half space.
    const { vertProperties, triVerts, numProp, runIndex } = part.getMesh();
    return outputsOf({ vertices: vertProperties, stride: numProp, triangles: triVerts, skin: runIndex[1] }, plane);
  };
  return {
    'the cut and its own volume': plane => under(plane, ownVolume),
    'with all outputs': plane => under(plane, part => allOf(part, plane)),
  };
}
