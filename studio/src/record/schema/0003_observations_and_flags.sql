-- What was seen at a visit of the hair removed at an earlier one, and what makes a forecast unsure or no use: JSON lists,
-- kept with the visit and, like all of it, never overwritten. Before this, nobody was asked.
alter table visits add column observations text not null default '[]';
alter table visits add column flags text not null default '[]';
