-- Who has a notice already that goes to several addresses: one that does not take it keeps nobody else from being told, and
-- nobody gets it twice.
create table notice_recipients (
    notice  blob not null references notices (id),
    address text not null,
    at      integer not null,
    primary key (notice, address)
) strict;
create trigger notice_recipients_stay before update on notice_recipients begin
    select raise(abort, 'who has a notice is never overwritten');
end;
