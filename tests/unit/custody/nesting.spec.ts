import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { NESTING_DEPTH, nestingFault, type Keeper } from '#custody';

const into = (id: string): Keeper => ({ kind: 'container', id });

/** The containers around one, by who lies in whom. */
const around = (inside: Readonly<Record<string, string>>) => (id: string): string[] => (inside[id] === undefined ? [] : [inside[id], ...around(inside)(inside[id])]);

describe('a container', () => {
  test.each(['holding', 'shelf', 'vehicle', 'freezer', 'courier'] as const)('may stand in a %s however much lies in it', (kind) => {
    expect(nestingFault('a', { kind, id: 'a' }, () => [], 9)).toBeNull();
  });

  test('is never put into itself, directly or through others', () => {
    const ancestorsOf = around({ c: 'b', b: 'a' });
    expect(nestingFault('a', into('a'), ancestorsOf)).toMatchObject({ code: 'in_itself', text: expect.stringContaining('into itself') });
    for (const inner of ['b', 'c']) expect(nestingFault('a', into(inner), ancestorsOf)).toMatchObject({ code: 'in_itself', text: expect.stringContaining('Take it out first') });
    // The innermost may go further out.
    expect(nestingFault('c', into('a'), ancestorsOf)).toBeNull();
  });

  test(`stands at most as one of ${NESTING_DEPTH} in one another, with what lies in it`, () => {
    expect(NESTING_DEPTH).toBe(4);
    const ancestorsOf = around({ c: 'b', b: 'a' });
    expect(nestingFault('new', into('c'), ancestorsOf)).toBeNull();
    expect(nestingFault('new', into('c'), ancestorsOf, 1)).toMatchObject({ code: 'too_deep', text: expect.stringContaining('5 containers') });
    expect(nestingFault('new', into('b'), ancestorsOf, 1)).toBeNull();
    expect(nestingFault('new', into('d'), around({ d: 'c', c: 'b', b: 'a' }))).toMatchObject({ code: 'too_deep' });
  });
});

describe('whatever is put into whatever', () => {
  test('nothing ever lies in itself, and nothing deeper than the limit', () => {
    const ids = ['a', 'b', 'c', 'd', 'e', 'f'];
    const put = fc.tuple(fc.constantFrom(...ids), fc.constantFrom(...ids));
    fc.assert(
      fc.property(fc.array(put, { maxLength: 40 }), (puts) => {
        const inside: Record<string, string> = {};
        const levelsIn = (id: string): number => Math.max(0, ...ids.filter((each) => inside[each] === id).map((each) => 1 + levelsIn(each)));
        for (const [id, to] of puts) {
          if (nestingFault(id, into(to), around(inside), levelsIn(id)) === null) inside[id] = to;
          // Would never end if something lay in itself.
          for (const each of ids) expect(around(inside)(each).length).toBeLessThan(NESTING_DEPTH);
        }
      }),
    );
  });
});
