/**
 * The hash tree over events: the shape of RFC 9162 (Certificate Transparency 2.0), section 2.1, with SHA-256 (FIPS 180-4).
 *
 *   leaf   SHA-256(0x00 || leaf)            the two prefixes keep a leaf from passing for a node
 *   node   SHA-256(0x01 || left || right)   the left side holds the largest power of two of leaves that is less than all of them
 *   empty  SHA-256()
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { concatBytes, utf8ToBytes } from '@noble/hashes/utils.js';

export type Hash = Uint8Array;

const LEAF = Uint8Array.of(0x00);
const NODE = Uint8Array.of(0x01);

/** Leaves that are stored together; a power of two, so that each full block is a whole subtree (see `pathThroughBlocks`). */
export const BLOCK_LEAVES = 256;

/** Hash of a leaf; a text stands for its UTF-8 bytes. */
export function leafHash(leaf: Uint8Array | string): Hash {
  return sha256(concatBytes(LEAF, typeof leaf === 'string' ? utf8ToBytes(leaf) : leaf));
}

/** Hash of the node above two others. */
export function nodeHash(left: Hash, right: Hash): Hash {
  return sha256(concatBytes(NODE, left, right));
}

/** Root of the tree over leaf hashes in order (RFC 9162, section 2.1.1); of none, the hash of nothing. */
export function treeRoot(leaves: readonly Hash[]): Hash {
  // Complete subtrees from the left, the largest first; two of one size become one of twice the size (section 2.1.2).
  const whole: { hash: Hash; size: number }[] = [];
  for (const leaf of leaves) {
    let node = { hash: leaf, size: 1 };
    while (whole.at(-1)?.size === node.size) {
      const left = whole.pop();
      if (left) node = { hash: nodeHash(left.hash, node.hash), size: node.size * 2 };
    }
    whole.push(node);
  }
  return whole.reduceRight<Hash | null>((right, { hash }) => (right === null ? hash : nodeHash(hash, right)), null) ?? sha256(new Uint8Array(0));
}

/**
 * Hashes that lead from one leaf to the root, from the leaf upwards (RFC 9162, section 2.1.3.1).
 * @throws RangeError when there is no such leaf.
 */
export function inclusionPath(leaves: readonly Hash[], index: number): Hash[] {
  if (!Number.isSafeInteger(index) || index < 0 || index >= leaves.length) throw new RangeError(`the tree has no leaf ${index}`);
  const path: Hash[] = [];
  let [from, to] = [0, leaves.length];
  while (to - from > 1) {
    const middle = from + leftSize(to - from);
    path.push(treeRoot(index < middle ? leaves.slice(middle, to) : leaves.slice(from, middle)));
    if (index < middle) to = middle;
    else from = middle;
  }
  return path.reverse();
}

/**
 * The root that a leaf hash and its path give (RFC 9162, section 2.1.3.2); `null` when a path of this length cannot belong to
 * this leaf of a tree of this size. The proof holds when the answer is the root that was signed.
 */
export function rootFromPath(leaf: Hash, index: number, treeSize: number, path: readonly Hash[]): Hash | null {
  if (!Number.isSafeInteger(index) || !Number.isSafeInteger(treeSize) || index < 0 || index >= treeSize) return null;
  let [place, last, root] = [index, treeSize - 1, leaf];
  for (const other of path) {
    if (last === 0) return null;
    if (place % 2 === 1 || place === last) {
      root = nodeHash(other, root);
      // A subtree at the right edge has no sibling on the levels between; they are passed over.
      while (place % 2 === 0 && place !== 0) [place, last] = [half(place), half(last)];
    } else {
      root = nodeHash(root, other);
    }
    [place, last] = [half(place), half(last)];
  }
  return last === 0 ? root : null;
}

/** Leaf hashes cut into blocks, each with the root of its subtree; the root of the tree is the root over these. */
export function leafBlocks(leaves: readonly Hash[]): { leaves: Hash[]; subtree: Hash }[] {
  const blocks: { leaves: Hash[]; subtree: Hash }[] = [];
  for (let from = 0; from < leaves.length; from += BLOCK_LEAVES) {
    const own = leaves.slice(from, from + BLOCK_LEAVES);
    blocks.push({ leaves: own, subtree: treeRoot(own) });
  }
  return blocks;
}

/**
 * The path of a leaf from its own block and the subtree roots of all blocks. It equals `inclusionPath` over all leaves: the split
 * of a tree of more than one block always falls on the edge of a block, and the blocks split as single leaves do.
 */
export function pathThroughBlocks(block: readonly Hash[], subtrees: readonly Hash[], index: number): Hash[] {
  return [...inclusionPath(block, index % BLOCK_LEAVES), ...inclusionPath(subtrees, Math.floor(index / BLOCK_LEAVES))];
}

/** The largest power of two that is less than the number of leaves (at least 2). */
function leftSize(leaves: number): number {
  let size = 1;
  while (size * 2 < leaves) size *= 2;
  return size;
}

const half = (value: number): number => Math.floor(value / 2);
