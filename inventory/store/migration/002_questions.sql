-- How many questions about an item wait for an answer.
ALTER TABLE item_now ADD COLUMN asks {{INT}} NOT NULL DEFAULT 0;

CREATE INDEX item_now_asks ON item_now (asks) WHERE asks > 0;
