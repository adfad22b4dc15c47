/** The parser's tree, walked without recursion. */
import type { flowTree } from './flow.ts';
import type { SourceSpan } from './note-text.ts';

type Root = ReturnType<typeof flowTree>;
export type Node = Root | Root['children'][number];

/** All nodes in the order of the text, each with the one it stands in. */
export function* nodesOf(root: Root): Generator<{ readonly node: Node; readonly parent: Node }> {
  const waiting: { node: Node; parent: Node }[] = [{ node: root, parent: root }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    yield next;
    const { node } = next;
    if (!('children' in node)) continue;
    for (let index = node.children.length - 1; index >= 0; index -= 1) {
      waiting.push({ node: node.children[index] as Node, parent: node });
    }
  }
}

export function placeOf(node: Node, shift: number): SourceSpan {
  const { start, end } = node.position!;
  return { start: start.offset! - shift, end: end.offset! - shift };
}
