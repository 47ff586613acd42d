// three-bvh-csg cuts the torpedo with a big box whose top is the plane. Closed: the intersection of both bodies. Open: the skin
// inside the box only, without its lid, which is much less work for the library; our formulas do without a lid.
import { BoxGeometry, BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { Brush, Evaluator, HOLLOW_INTERSECTION, INTERSECTION } from 'three-bvh-csg/src/index.js';   // Node alone takes the old format
import { outputsOf } from './outputs.mjs';

function brushOf(geometry) {
  const brush = new Brush(geometry);
  brush.updateMatrixWorld(true);
  brush.prepareGeometry();   // its tree and its edges, kept from here on
  return brush;
}

function torpedoBrush({ vertices, triangles }) {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(vertices), 3));
  geometry.setIndex(new BufferAttribute(Uint32Array.from(triangles), 1));
  return brushOf(geometry);
}

/** Positions only, one target used again and again: what the library need not do it is not asked for. `fine`: its second way
 * of splitting triangles, the faster one where there is a lid. */
function evaluatorOf(fine) {
  const evaluator = new Evaluator();
  evaluator.attributes = ['position'];
  evaluator.useGroups = false;
  evaluator.useCDTClipping = fine;
  return evaluator;
}

/** What may be timed, by name: each a function of a plane that gives the outputs. */
export function csgCuts(torpedo) {
  const body = torpedoBrush(torpedo), top = new Vector3(), kUp = new Vector3(0, 0, 1);
  const geometry = new BoxGeometry(4, 4, 4).translate(0, 0, -2);
  geometry.clearGroups();
  const box = brushOf(geometry);
  const cutter = (operation, fine, volumeOnly) => {
    const evaluator = evaluatorOf(fine), target = new Brush();
    return plane => {
      top.fromArray(plane.up);
      box.quaternion.setFromUnitVectors(kUp, top);
      box.position.copy(top).multiplyScalar(plane.level);
      box.updateMatrixWorld(true);
      const { attributes, index, drawRange } = evaluator.evaluate(body, box, operation, target).geometry;
      const end = Math.min(drawRange.count, index.count), triangles = index.array, vertices = attributes.position.array;
      return outputsOf({ vertices, triangles, end }, plane, volumeOnly);
    };
  };
  return {
    'closed, and its volume': cutter(INTERSECTION, true, true),
    'open, and its volume': cutter(HOLLOW_INTERSECTION, false, true),
    'open, with all outputs': cutter(HOLLOW_INTERSECTION, false, false),
  };
}
