/** Which file may import which. Run by scripts/check-imports.ts, which also makes sure that every file was seen. */

/** Layers of the core, lowest first: a layer imports itself and those before it. Peers on one line may not meet. */
const coreRanks = [
  ['units'],
  ['handbook'],
  ['boat'],
  ['physics'],
  ['circuit'],
  ['operate'],
  ['faults', 'checks', 'readings'],
  ['diagnosis'],
  ['remedy'],
  ['planning'],
  ['report'],
];

/** `pattern` matches no other module than one of these layers. */
const inLayers = (layers) => `^packages/core/src/(?:${layers.join('|')})/`;

const coreRules = coreRanks.flatMap((rank, index) =>
  rank.map((layer) => ({
    name: `core-${layer}`,
    comment: `${layer} may import only itself and lower layers of the core.`,
    severity: 'error',
    from: { path: inLayers([layer]) },
    to: {
      path: `^packages/core/src/`,
      pathNot: inLayers([layer, ...coreRanks.slice(0, index).flat()]),
    },
  })),
);

/** Packages, and which others of this repository each may import. */
const packageRules = Object.entries({
  core: [],
  jobs: ['core'],
  server: [],
  pdf: ['core'],
  cli: ['core', 'jobs', 'pdf'],
  web: ['core', 'jobs', 'pdf'],
}).map(([name, allowed]) => ({
  name: `package-${name}`,
  comment: `${name} may import ${allowed.length === 0 ? 'no other package' : `only ${allowed.join(' and ')}`}.`,
  severity: 'error',
  from: { path: `^packages/${name}/src/` },
  to: { path: '^(?:packages|bench|scripts)/', pathNot: `^packages/(?:${[name, ...allowed].join('|')})/` },
}));

module.exports = {
  forbidden: [
    ...coreRules,
    {
      name: 'core-layers-known',
      comment: 'A folder of the core must have a rank in .dependency-cruiser.cjs.',
      severity: 'error',
      from: { path: '^packages/core/src/[^/]+/', pathNot: inLayers(coreRanks.flat()) },
      to: {},
    },
    ...packageRules,
    {
      name: 'no-cycle',
      comment: 'Two files that import each other are one file, or need a third.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'no-test-in-source',
      comment: 'Source may not import tests.',
      severity: 'error',
      from: { path: '^packages/[^/]+/src/' },
      to: { path: '(?:^|/)test/' },
    },
    {
      name: 'core-uses-no-host',
      comment: 'The core runs anywhere: nothing of Node.',
      severity: 'error',
      from: { path: '^packages/core/src/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'resolvable',
      comment: 'An import that leads nowhere escapes all other rules.',
      severity: 'error',
      from: { path: '^packages/[^/]+/src/' },
      // The second is a declaration file of @types alone.
      to: { couldNotResolve: true, pathNot: '^(?:virtual:|pdfmake/interfaces)' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(?:^|/)dist/' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'default'],
      extensions: ['.ts', '.tsx', '.js', '.mjs', '.json', '.css'],
    },
  },
};
