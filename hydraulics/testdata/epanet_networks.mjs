// Writes epanet_networks.csv: branching networks of hoses, heights and nozzles,
// solved by the EPANET engine. Run in a directory with npm package epanet-js 0.9.0:
//
//	node epanet_networks.mjs > epanet_networks.csv
//
// A manifold at fixed pressure is a reservoir, a hose a pipe with the Darcy-Weisbach
// formula, a nozzle an emitter with coefficient N/sqrt(4000) gpm/psi^0.5. The engine
// uses Swamee and Jain's friction factor above Re 4000, 64/Re below 2000, and a cubic
// between; 32.2 ft/s2 and 0.4333 psi/ft.
import { Project, Workspace } from "epanet-js";

// nu: kinematic viscosity in ft2/s. pipes: from, to, length ft, bore in, roughness
// 1e-3 ft, K. Node 0 is the manifold; nodes give height ft and nozzle number (0: none).
const networks = [
  {
    name: "two guns cold", psi: 2900, nu: 1.54e-5,
    nodes: [[0, 0], [0, 0], [3, 4.5], [-2, 5]],
    pipes: [[0, 1, 150, 0.546, 0.005, 2], [1, 2, 150, 0.375, 0, 4], [1, 3, 100, 0.375, 0, 4]],
  },
  {
    name: "three guns hot", psi: 2500, nu: 4.0e-6,
    nodes: [[0, 0], [0, 0], [0, 4], [6, 5.5], [0, 3]],
    pipes: [[0, 1, 80, 0.5, 0, 1], [1, 2, 150, 0.375, 0.01, 3], [1, 3, 50, 0.3125, 0.02, 3], [1, 4, 200, 0.25, 0, 3]],
  },
  {
    name: "two levels of branches", psi: 1800, nu: 1.1e-5,
    nodes: [[0, 0], [0, 0], [2, 0], [4, 3], [4, 2], [0, 6], [10, 2.5]],
    pipes: [[0, 1, 60, 0.5, 0.15, 2], [1, 2, 90, 0.375, 0.15, 1.5], [2, 3, 40, 0.3125, 0, 2], [2, 4, 70, 0.25, 0, 2], [1, 5, 120, 0.375, 0.15, 2], [0, 6, 160, 0.25, 0.05, 5]],
  },
  {
    name: "chemical tips at low pressure", psi: 60, nu: 1.1e-5,
    nodes: [[0, 0], [0, 0], [3, 15], [1, 20], [-4, 10]],
    pipes: [[0, 1, 50, 0.375, 0, 1], [1, 2, 100, 0.25, 0, 1], [1, 3, 75, 0.3125, 0, 1], [0, 4, 150, 0.25, 0, 1]],
  },
  {
    name: "thick soap", psi: 60, nu: 1.1e-3,
    nodes: [[0, 0], [0, 0], [3, 15], [1, 20], [-4, 10]],
    pipes: [[0, 1, 50, 0.5, 0, 0], [1, 2, 100, 0.375, 0, 0], [1, 3, 75, 0.5, 0, 0], [0, 4, 150, 0.375, 0, 0]],
  },
];

function input(n) {
  const head = n.psi / 0.4333;
  let s = "[TITLE]\n" + n.name + "\n[JUNCTIONS]\n";
  n.nodes.forEach(([z], i) => { if (i > 0) s += `N${i} ${z} 0\n`; });
  s += `[RESERVOIRS]\nN0 ${head}\n[PIPES]\n`;
  n.pipes.forEach(([a, b, l, d, e, k], i) => { s += `P${i} N${a} N${b} ${l} ${d} ${e || 1e-6} ${k} Open\n`; });
  s += "[EMITTERS]\n";
  n.nodes.forEach(([, num], i) => { if (num > 0) s += `N${i} ${num / Math.sqrt(4000)}\n`; });
  s += `[OPTIONS]\nUNITS GPM\nHEADLOSS D-W\nVISCOSITY ${n.nu / 1.1e-5}\nSPECIFIC GRAVITY 1\nTRIALS 500\nACCURACY 0.00001\nFLOWCHANGE 0.00000001\nHEADERROR 0.0000001\nEMITTER EXPONENT 0.5\n[TIMES]\nDURATION 0\n[END]\n`;
  return s;
}

const out = [
  "# source: EPANET engine through npm epanet-js 0.9.0, 2026-11-25, written by epanet_networks.mjs; Darcy-Weisbach with Swamee-Jain friction; one row a pipe, from the manifold outward; status: computed",
  "network,manifold_psi,kinematic_viscosity_ft2_s,from,to,length_ft,bore_in,roughness_1e-3_ft,K,rise_ft,nozzle_number,flow_gpm,end_pressure_psi",
];
for (const n of networks) {
  const ws = new Workspace();
  if (ws.loadModule) await ws.loadModule();
  const p = new Project(ws);
  ws.writeFile("net.inp", input(n));
  try { p.open("net.inp", "net.rpt", "net.bin"); } catch (e) { console.error(ws.readFile("net.rpt")); throw e; }
  p.solveH();
  n.pipes.forEach(([a, b, l, d, e, k], i) => {
    const flow = p.getLinkValue(p.getLinkIndex(`P${i}`), 8);
    const pressure = p.getNodeValue(p.getNodeIndex(`N${b}`), 11);
    out.push([n.name, n.psi, n.nu, a, b, l, d, e, k, n.nodes[b][0] - n.nodes[a][0], n.nodes[b][1], flow.toPrecision(10), pressure.toPrecision(10)].join(","));
  });
  p.close();
}
console.log(out.join("\n"));
