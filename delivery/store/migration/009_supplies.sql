-- What is told of counted supplies, and what corrects anything: their stock is
-- folded from these alone.
CREATE INDEX fact_supplies ON fact (id) WHERE says IN ('supplied', 'supply counted', 'supply moved', 'supply recalled', 'given', 'discharged');
CREATE INDEX fact_corrects ON fact (id) WHERE corrects IS NOT NULL;
