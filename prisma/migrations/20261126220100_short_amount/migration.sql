-- What the joint needed when the adhesive went on, and why less went on, in the words of who applied it. Both are of then:
-- the joint may be edited later. Bonds from before this have neither.
alter table bond
  add column amount_needed_ul    integer,
  add column short_amount_reason text,
  add constraint bond__amount_needed check (amount_needed_ul > 0),
  add constraint bond__short_amount_says_why check (short_amount_reason <> ''),
  -- Whole mL, rounded up, as people write and read them: the rest of a millilitre is no shortage.
  add constraint bond__short_amount check (
    (short_amount_reason is not null)
    = (amount_needed_ul is not null and (amount_ul + 999) / 1000 < (amount_needed_ul + 999) / 1000));
