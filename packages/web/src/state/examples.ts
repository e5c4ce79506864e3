/** Example jobs that come with the page. */
const files = import.meta.glob('../../../../examples/*.json', { query: '?raw', import: 'default' });
const titles: Readonly<Record<string, string>> = import.meta.glob('../../../../examples/*.json', {
  eager: true,
  import: 'title',
});
const complaints: Readonly<Record<string, string>> = import.meta.glob('../../../../examples/*.json', {
  eager: true,
  import: 'complaint',
});

/** The one that the guided tour walks through. */
export const guidedExample = 'dead-alternator';

export interface Example {
  readonly name: string;
  readonly title: string;
  readonly complaint: string;
  readonly text: () => Promise<string>;
}

export const examples: readonly Example[] = Object.entries(files).map(([path, text]) => ({
  name: path.replace(/^.*\//, '').replace('.json', ''),
  title: titles[path] ?? path,
  complaint: complaints[path] ?? '',
  text: text,
}));
