/** The holder in three dimensions. Drawn only when something changed; geometry is swapped in place. */
import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  Group,
  HemisphereLight,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  OrthographicCamera,
  Scene,
  Vector3,
  WebGLRenderer,
} from "three";

import { sharpEdges } from "./edges";
import { along, type Frame, type Piece } from "./meshframe";

export type Side = "front" | "side" | "corner" | "below";

// how far round (from the front towards the right of the reader) and up each side looks from
const SIDES: Record<Side, [number, number]> = {
  front: [0, 0],
  side: [90, 0],
  corner: [38, 24],
  below: [30, -28],
};
const MOST_EDGED = 60_000;
const EDGE_DEG = 25;

/** The colour of a token in the light or the dark that is shown: only a painted property tells. */
function colour(name: string): Color {
  const probe = document.body.appendChild(document.createElement("i"));
  probe.style.color = `var(${name})`;
  const shown = getComputedStyle(probe).color;
  probe.remove();
  return new Color(shown);
}

export class HolderScene {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new OrthographicCamera(-1, 1, 1, -1, -4000, 8000);
  private readonly parts = new Group();
  private readonly tools = new Group();
  private readonly paints = new Paints();
  private readonly light = new DirectionalLight(0xffffff, 1.7);
  private round = 38;
  private up = 24;
  private zoom = 1;
  private middle = new Vector3();
  private radius = 100;
  private waiting = false;
  private frame: Frame | null = null;
  private share = 0;
  private chosen = -1;
  private shape = "";

  constructor(private readonly canvas: HTMLCanvasElement) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.scene.add(new HemisphereLight(0xffffff, 0x8899a0, 1.6), this.light, this.parts, this.tools);
  }

  /** Put another holder, or another revision of the same, into the picture. */
  show(frame: Frame): void {
    clear(this.parts);
    clear(this.tools);
    this.frame = frame;
    for (const piece of frame.pieces) {
      const { solid: plain, wood, edge, tool, toolEdge } = this.paints;
      if (piece.role === "tool") this.tools.add(new Group().add(...solid(piece, tool, toolEdge)));
      else this.parts.add(...solid(piece, piece.role === "wood" ? wood : plain, edge));
    }
    const shape = `${frame.number}`;
    if (shape !== this.shape) {
      // the same holder keeps its scale while its measures change
      this.shape = shape;
      this.measure(frame);
    }
    this.placeTools();
    this.draw();
  }

  /** Move the tools along their way out; ``chosen`` is one seat, or -1 for all. */
  move(share: number, chosen: number): void {
    this.share = share;
    this.chosen = chosen;
    this.placeTools();
    this.draw();
  }

  look(side: Side): void {
    [this.round, this.up] = SIDES[side];
    this.zoom = 1;
    this.draw();
  }

  turn(dx: number, dy: number): void {
    this.round = (this.round - dx * 0.5) % 360;
    this.up = Math.max(-89, Math.min(89, this.up + dy * 0.5));
    this.draw();
  }

  nearer(factor: number): void {
    this.zoom = Math.max(0.3, Math.min(8, this.zoom * factor));
    this.draw();
  }

  resize(width: number, height: number): void {
    this.renderer.setSize(width, height, false);
    this.draw();
  }

  recolour(): void {
    this.paints.recolour();
    this.draw();
  }

  dispose(): void {
    clear(this.parts);
    clear(this.tools);
    this.paints.dispose();
    this.renderer.dispose();
  }

  /** How many geometries the graphics hold: a test looks whether old ones are given back. */
  get geometries(): number {
    return this.renderer.info.memory.geometries;
  }

  draw(): void {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.render();
    });
  }

  private render(): void {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    if (!width || !height) return;
    const half = this.radius / this.zoom;
    const wide = Math.max(width / height, 1) * half;
    const high = Math.max(height / width, 1) * half;
    Object.assign(this.camera, { left: -wide, right: wide, top: high, bottom: -high });
    const round = (this.round * Math.PI) / 180;
    const up = (this.up * Math.PI) / 180;
    const away = new Vector3(
      Math.sin(round) * Math.cos(up),
      Math.sin(up),
      Math.cos(round) * Math.cos(up),
    );
    this.camera.position.copy(this.middle).addScaledVector(away, this.radius * 3);
    this.camera.lookAt(this.middle);
    this.camera.updateProjectionMatrix();
    this.light.position.copy(away).add(new Vector3(-0.5, 0.9, 0.2));
    this.renderer.render(this.scene, this.camera);
  }

  private measure(frame: Frame): void {
    const low = new Vector3(Infinity, Infinity, Infinity);
    const high = new Vector3(-Infinity, -Infinity, -Infinity);
    for (const { positions } of frame.pieces) {
      for (let at = 0; at < positions.length; at += 3) {
        const point = new Vector3(-(positions[at] ?? 0), positions[at + 2] ?? 0, positions[at + 1] ?? 0);
        low.min(point);
        high.max(point);
      }
    }
    this.middle = low.clone().add(high).multiplyScalar(0.5);
    this.radius = Math.max(10, high.sub(low).length() * 0.56);
  }

  private placeTools(): void {
    const pieces = this.frame?.pieces.filter((piece) => piece.role === "tool") ?? [];
    for (const [index, child] of this.tools.children.entries()) {
      const moves = pieces[index]?.way_out_mm ?? [];
      const moved = this.chosen < 0 || this.chosen === index;
      const [x, y, z] = moved ? along(moves, this.share) : [0, 0, 0];
      child.position.set(-x, z, y);
    }
  }
}

/** The corners of a piece in the axes of the scene. */
function turnedCorners(piece: Piece): Float32Array {
  // x of a holder runs to the left of a person who faces the wall, y towards them, z up
  const turned = new Float32Array(piece.positions.length);
  for (let at = 0; at < turned.length; at += 3) {
    turned[at] = -(piece.positions[at] ?? 0);
    turned[at + 1] = piece.positions[at + 2] ?? 0;
    turned[at + 2] = piece.positions[at + 1] ?? 0;
  }
  return turned;
}

function geometryOf(corners: Float32Array): BufferGeometry {
  return new BufferGeometry().setAttribute("position", new BufferAttribute(corners, 3));
}

/** What solids are drawn with, kept from one to the next: a new one would be compiled anew. */
class Paints {
  private readonly apart = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };
  readonly solid = new MeshLambertMaterial({ flatShading: true, ...this.apart });
  readonly wood = new MeshLambertMaterial({ flatShading: true, ...this.apart });
  readonly edge = new LineBasicMaterial();
  readonly tool = new MeshLambertMaterial({
    flatShading: true,
    transparent: true,
    opacity: 0.28,
    depthWrite: false,
  });
  readonly toolEdge = new LineBasicMaterial({ transparent: true, opacity: 0.7 });

  constructor() {
    this.recolour();
  }

  /** Take the colours of the light or the dark that is shown. */
  recolour(): void {
    this.solid.color = colour("--solid");
    this.wood.color = colour("--wood");
    this.edge.color = colour("--ink");
    this.tool.color = this.toolEdge.color = colour("--act");
  }

  dispose(): void {
    for (const one of [this.solid, this.wood, this.edge, this.tool, this.toolEdge]) one.dispose();
  }
}

function solid(piece: Piece, paint: MeshLambertMaterial, edge: LineBasicMaterial): (Mesh | LineSegments)[] {
  const corners = turnedCorners(piece);
  const geometry = geometryOf(corners).setIndex(new BufferAttribute(piece.triangles, 1));
  const found: (Mesh | LineSegments)[] = [new Mesh(geometry, paint)];
  if (piece.triangles.length < 3 * MOST_EDGED) {
    const edges = sharpEdges(corners, piece.triangles, EDGE_DEG);
    found.push(new LineSegments(geometryOf(edges), edge));
  }
  return found;
}

function clear(group: Group): void {
  group.traverse((child) => {
    if (child instanceof Mesh || child instanceof LineSegments) child.geometry.dispose();
  });
  group.clear();
}
