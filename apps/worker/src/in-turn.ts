/**
 * Work for the same subject one after another, in the order in which it came; different subjects go beside each other. Two plan
 * runs of one incident that overlap would plan almost the same rows twice, and one that waits here takes in further requests.
 */
export function inTurn(): <T>(subject: string, work: () => Promise<T>) => Promise<T> {
  const last = new Map<string, Promise<unknown>>();
  return (subject, work) => {
    const mine = (last.get(subject) ?? Promise.resolve()).then(work, work);
    last.set(subject, mine);
    const forget = () => {
      if (last.get(subject) === mine) last.delete(subject);
    };
    mine.then(forget, forget);
    return mine;
  };
}
