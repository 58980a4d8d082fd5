-- Which release of the rule book a network follows: the one it began with, until a lead decides on another.

-- A network that there is already goes on with the release of that day. Whoever makes a network names the newest; who leaves
-- it out is a program from before the second release.
alter table network add column rule_book_release text collate "C" not null default '2026.2' check (length(rule_book_release) between 1 and 40);

-- A decision is about a release and its choices together. Those on record were made when there was one release only; the same
-- holds for a program from before, which may still write beside this one.
alter table rule_book_choice add column release text collate "C" not null default '2026.2' check (length(release) between 1 and 40);
