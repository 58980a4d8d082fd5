/** How many things of a revision are done together with assignment `a`, itself included; null where it is done alone. */
export const TOGETHER = `case when a.batch_id is not null then (
  select count(*)::int from plan_assignment b where b.network_id = a.network_id and b.revision_id = a.revision_id and b.batch_id = a.batch_id) end as together`;
