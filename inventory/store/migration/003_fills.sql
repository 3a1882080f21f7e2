-- The fills of all cylinders, by when they happened: a lot recall and the look
-- at a plant's fills read these alone.
CREATE INDEX fact_filled ON fact (happened, item_id) WHERE says = 'filled';
-- The marks of recalls, whatever became of the items.
CREATE INDEX fact_recalled ON fact (item_id) WHERE says = 'recalled';
