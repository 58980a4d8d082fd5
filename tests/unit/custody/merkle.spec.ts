import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { bytesToHex } from '@noble/hashes/utils.js';
import { BLOCK_LEAVES, inclusionPath, leafBlocks, leafHash, nodeHash, pathThroughBlocks, rootFromPath, treeRoot, type Hash } from '#custody';

/** The tree by the recursive definition of RFC 9162, section 2.1.1, written down a second time. */
function naiveRoot(leaves: readonly Hash[]): Hash {
  if (leaves.length === 1) return leaves[0] ?? leafHash('');
  const split = 2 ** Math.ceil(Math.log2(leaves.length) - 1);
  return nodeHash(naiveRoot(leaves.slice(0, split)), naiveRoot(leaves.slice(split)));
}

const leavesOf = (count: number): Hash[] => Array.from({ length: count }, (_, index) => leafHash(`leaf ${index}`));
const hex = (hash: Hash | null): string => (hash === null ? 'none' : bytesToHex(hash));
const MANY = leavesOf(5 * BLOCK_LEAVES);

const treeArb = fc.integer({ min: 1, max: 70 }).chain((size) => fc.record({ size: fc.constant(size), index: fc.integer({ min: 0, max: size - 1 }) }));

describe('the hash tree', () => {
  test('is the tree of the recursive definition, at every size up to 300', () => {
    for (let size = 1; size <= 300; size += 1) expect(hex(treeRoot(MANY.slice(0, size)))).toBe(hex(naiveRoot(MANY.slice(0, size))));
  });

  test('every leaf of every tree up to 33 leaves is proved by its path, and by no other place, size or leaf', () => {
    for (let size = 1; size <= 33; size += 1) {
      const leaves = MANY.slice(0, size);
      const root = hex(treeRoot(leaves));
      for (let index = 0; index < size; index += 1) {
        const path = inclusionPath(leaves, index);
        expect(hex(rootFromPath(leaves[index] ?? root as never, index, size, path))).toBe(root);
        if (size > 1) expect(hex(rootFromPath(leaves[(index + 1) % size] ?? root as never, index, size, path))).not.toBe(root);
        for (let other = 0; other < size; other += 1) if (other !== index) expect(hex(rootFromPath(leaves[index] ?? root as never, other, size, path))).not.toBe(root);
      }
    }
  });

  test('property: a path that is cut, lengthened, reordered or changed in one bit proves nothing', () => {
    fc.assert(fc.property(treeArb, fc.nat(), fc.nat(255), ({ size, index }, where, bit) => {
      const leaves = MANY.slice(0, size);
      const root = hex(treeRoot(leaves));
      const leaf = leaves[index] ?? leafHash('');
      const path = inclusionPath(leaves, index);
      expect(hex(rootFromPath(leaf, index, size, [...path, leaf]))).not.toBe(root);
      if (path.length === 0) return;
      expect(hex(rootFromPath(leaf, index, size, path.slice(1)))).not.toBe(root);
      expect(hex(rootFromPath(leaf, index, size, path.slice(0, -1)))).not.toBe(root);
      if (path.length > 1) expect(hex(rootFromPath(leaf, index, size, [...path].reverse()))).not.toBe(root);
      const changed = path.map((hash) => Uint8Array.from(hash));
      const one = changed[where % path.length];
      if (one) one[bit >> 3] = (one[bit >> 3] ?? 0) ^ (1 << (bit & 7));
      expect(hex(rootFromPath(leaf, index, size, changed))).not.toBe(root);
    }));
  });

  test('a place outside of the tree has no path and proves nothing', () => {
    for (const index of [-1, 5, 1.5, Number.NaN]) {
      expect(() => inclusionPath(MANY.slice(0, 5), index)).toThrow(RangeError);
      expect(rootFromPath(leafHash(''), index, 5, [])).toBeNull();
    }
    expect(rootFromPath(leafHash(''), 0, 0, [])).toBeNull();
  });
});

describe('leaves that are stored in blocks', () => {
  const sizes = [1, 2, 255, 256, 257, 511, 512, 513, 700, 768, 1_024, 1_025, 1_280];

  test('give the root and the paths of the whole tree, round every edge of a block', () => {
    for (const size of sizes) {
      const leaves = MANY.slice(0, size);
      const blocks = leafBlocks(leaves);
      const subtrees = blocks.map(({ subtree }) => subtree);
      expect(hex(treeRoot(subtrees))).toBe(hex(treeRoot(leaves)));
      for (const index of new Set([0, 1, 254, 255, 256, 257, 512, size - 2, size - 1].filter((each) => each >= 0 && each < size))) {
        const block = blocks[Math.floor(index / BLOCK_LEAVES)];
        expect(pathThroughBlocks(block?.leaves ?? [], subtrees, index).map(hex)).toEqual(inclusionPath(leaves, index).map(hex));
      }
    }
  });
});
