// The bodies of the house in space; drawn only when something changed.
import {
  BufferGeometry, Color, DirectionalLight, EdgesGeometry, Group, HemisphereLight, LineBasicMaterial, LineSegments, Mesh, MeshBasicMaterial, MeshLambertMaterial,
  type Object3D, PerspectiveCamera, Plane, Scene, Vector3, WebGLRenderer, BackSide, Box3,
} from "three";
import { GLTFLoader } from "three/addons/loaders/GLTFLoader.js";
import { mergeGeometries } from "three/addons/utils/BufferGeometryUtils.js";

export type Way = "whole" | "open" | "cut" | "apart" | "inside";

export interface Stage {
  /** Takes the bytes of a model. */
  load(glb: ArrayBuffer): Promise<void>;
  show(way: Way): void;
  turn(round: number, up: number): void;
  near(times: number): void;
  end(): void;
  /** The last frame: its number, its triangles, draw calls and milliseconds of script. */
  tally(): { frame: number; triangles: number; calls: number; script: number };
}

/** When a body is built, as the model says: its place in the order, the metres left free above it where the parts are pulled apart, whether it covers the room. */
interface Built {
  rank: number;
  free_above_m: number;
  over_the_room: boolean;
}

/** Degrees from the lowest to the highest that is seen. */
const VIEW = 38;

/** A stage on a canvas, or nothing where the machine cannot draw bodies. */
export function stage(canvas: HTMLCanvasElement): Stage | null {
  let renderer: WebGLRenderer;
  try {
    renderer = new WebGLRenderer({ canvas, antialias: true });
  } catch {
    return null;
  }
  const scene = new Scene();
  scene.background = new Color("#fbf9f3");
  const camera = new PerspectiveCamera(VIEW, 4 / 3, 0.05, 200);
  const sun = new DirectionalLight("#fff6e4", 2.2);
  scene.add(new HemisphereLight("#ffffff", "#b9ac95", 1.5), sun);
  const house = new Group();
  scene.add(house);
  const cut = new Plane(new Vector3(0, 0, -1), 0);
  let [round, up] = [0.6, 0.55];
  /** How many times farther away than where the whole house just fills the picture. */
  let times = 1;
  /** How far the house reaches from the upright line through its middle, and half of its height. */
  let [reach, half] = [1, 1];
  let way: Way = "whole";
  let middle = new Vector3();
  let floor = 0;
  let [asked, ended, spent] = [0, false, 0];
  let fitted: [width: number, height: number, ratio: number] = [0, 0, 0];

  /** Fits the picture to its place. Only where that has changed: a canvas whose size is set again loses all that it holds. */
  const fit = () => {
    const now: typeof fitted = [canvas.clientWidth, canvas.clientHeight, Math.min(devicePixelRatio, 2)];
    const [width, height, ratio] = now;
    if (width === 0 || height === 0 || now.every((one, place) => one === fitted[place])) return;
    fitted = now;
    renderer.setPixelRatio(ratio);
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
  };

  /** From the middle to where the house just fills the picture at this tilt, however it is turned: its rims, above and below, lie within. */
  const away = (): number => {
    const [rise, flat] = [Math.sin(up), Math.cos(up)];
    const upright = Math.tan((0.5 * VIEW * Math.PI) / 180);
    let far = 0;
    for (let step = 0; step < 24; step += 1) {
      const [aside, toward] = [reach * Math.sin((step * Math.PI) / 12), reach * Math.cos((step * Math.PI) / 12)];
      for (const level of [-half, half]) {
        const [nearer, above] = [toward * flat + level * rise, level * flat - toward * rise];
        far = Math.max(far, nearer + Math.abs(above) / upright, nearer + Math.abs(aside) / (upright * camera.aspect));
      }
    }
    return far * 1.03;
  };

  const draw = () => {
    if (asked || ended) return;
    asked = requestAnimationFrame(() => {
      asked = 0;
      const start = performance.now();
      fit();
      const flat = Math.cos(up);
      const ahead = new Vector3(Math.sin(round) * flat, Math.sin(up), Math.cos(round) * flat);
      if (way === "inside") {
        camera.fov = 70;
        camera.position.set(middle.x, floor + 1.6, middle.z);
        camera.lookAt(camera.position.clone().sub(new Vector3(ahead.x, (up - 0.5) * 0.8, ahead.z)));
      } else {
        camera.fov = VIEW;
        camera.position.copy(middle).addScaledVector(ahead, times * away());
        camera.lookAt(middle);
      }
      camera.updateProjectionMatrix();
      sun.position.copy(camera.position).add(new Vector3(-4, 6, 2));
      renderer.render(scene, camera);
      spent = performance.now() - start;
    });
  };

  const show = (wanted: Way) => {
    const changed = way !== wanted;
    way = wanted;
    const stages = new Map<number, { parts: Object3D[]; box: Box3; built: Built }>();
    for (const part of house.children) {
      const built = part.userData as Built;
      const stage = stages.get(built.rank) ?? { parts: [], box: new Box3(), built };
      part.position.y = 0;
      part.visible = !(way === "open" && built.over_the_room);
      stage.parts.push(part);
      stage.box.expandByObject(part);
      stages.set(built.rank, stage);
    }
    let level = 0;
    for (const { parts, box, built } of [...stages.values()].sort((a, b) => a.built.rank - b.built.rank)) {
      if (way === "apart") for (const part of parts) part.position.y = level - box.min.y;
      level += box.max.y - box.min.y + built.free_above_m;
    }
    renderer.clippingPlanes = way === "cut" ? [cut] : [];
    if (changed) place();
    draw();
  };

  const place = () => {
    const box = new Box3().setFromObject(house);
    if (box.isEmpty()) return;
    box.getCenter(middle);
    cut.constant = middle.z;
    half = 0.5 * (box.max.y - box.min.y);
    reach = 0;
    house.traverse((one) => {
      if (!(one instanceof Mesh) || !one.parent?.visible) return;
      const at = (one.geometry as BufferGeometry).getAttribute("position");
      for (let place = 0; place < at.count; place += 1) reach = Math.max(reach, Math.hypot(at.getX(place) - middle.x, at.getZ(place) - middle.z));
    });
    times = 1;
  };

  const load = async (glb: ArrayBuffer) => {
    const gltf = await new GLTFLoader().parseAsync(glb, "");
    for (const old of house.children) old.traverse((one) => one instanceof Mesh && one.geometry.dispose());
    house.clear();
    gltf.scene.updateMatrixWorld(true);
    // One mesh for each material of each group keeps the draw calls few.
    const kinds = new Map<string, { built: Built; colour: Color; parts: BufferGeometry[] }>();
    gltf.scene.traverse((one) => {
      if (!(one instanceof Mesh)) return;
      // The loader keeps the name as it was written beside the one that it makes of it.
      const path = String(one.userData.name ?? one.parent?.userData.name ?? one.name);
      const { rank, free_above_m, over_the_room } = (one.userData.rank === undefined ? one.parent!.userData : one.userData) as Built;
      const colour = (one.material as MeshLambertMaterial).color;
      const key = `${rank} ${colour.getHexString()}`;
      const kind = kinds.get(key) ?? { built: { rank, free_above_m, over_the_room }, colour, parts: [] };
      const geometry = (one.geometry as BufferGeometry).clone().applyMatrix4(one.matrixWorld);
      for (const name of Object.keys(geometry.attributes)) if (name !== "position") geometry.deleteAttribute(name);
      kind.parts.push(geometry.toNonIndexed());
      kinds.set(key, kind);
      if (path.startsWith("floor.")) floor = Math.max(floor, new Box3().setFromObject(one).max.y);
    });
    for (const { built, colour, parts } of kinds.values()) {
      const geometry = mergeGeometries(parts);
      geometry.computeVertexNormals();
      const part = new Group();
      Object.assign(part.userData, built);
      const behind = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };
      part.add(new Mesh(geometry, new MeshLambertMaterial({ color: colour, flatShading: true, ...behind })));
      // What is cut shows the backs of its faces: one even tone, as a cut is filled on a drawing.
      part.add(new Mesh(geometry, new MeshBasicMaterial({ color: colour.clone().multiplyScalar(0.55), side: BackSide, ...behind })));
      part.add(new LineSegments(new EdgesGeometry(geometry, 28), new LineBasicMaterial({ color: "#2b2620" })));
      house.add(part);
    }
    show(way);
    place();
    draw();
  };

  const watch = new ResizeObserver(draw);
  watch.observe(canvas);
  return {
    load,
    show,
    turn(by, tilt) {
      round -= by;
      up = Math.min(1.45, Math.max(-0.2, up + tilt));
      draw();
    },
    near(by) {
      times = Math.min(4, Math.max(0.15, times * by));
      draw();
    },
    end() {
      ended = true;
      watch.disconnect();
      cancelAnimationFrame(asked);
      renderer.dispose();
    },
    tally: () => {
      const { frame, triangles, calls } = renderer.info.render;
      return { frame, triangles, calls, script: spent };
    },
  };
}
