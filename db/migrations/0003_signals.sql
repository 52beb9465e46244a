CREATE TABLE "signal_answers" (
	"site" integer NOT NULL,
	"method" text NOT NULL,
	"measure" text NOT NULL,
	"raised_on" date NOT NULL,
	"direction" text NOT NULL,
	"kind" text NOT NULL,
	"from_day" date,
	"to_day" date,
	"days" jsonb NOT NULL,
	"person" uuid NOT NULL,
	"reason_sealed" text NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "signal_answers_are_given_once_a_record" PRIMARY KEY("site","method","measure","raised_on","direction","ledger_index")
);
--> statement-breakpoint
CREATE TABLE "signals" (
	"site" integer NOT NULL,
	"method" text NOT NULL,
	"measure" text NOT NULL,
	"raised_on" date NOT NULL,
	"direction" text NOT NULL,
	"month" text NOT NULL,
	"state" text NOT NULL,
	"chart" text NOT NULL,
	"since" date,
	"since_from" date NOT NULL,
	"since_to" date NOT NULL,
	"date_determined" boolean NOT NULL,
	"change" double precision NOT NULL,
	"low" double precision NOT NULL,
	"high" double precision NOT NULL,
	"level" double precision NOT NULL,
	"before" double precision NOT NULL,
	"after" double precision NOT NULL,
	"per_30_days" double precision NOT NULL,
	"days_since" integer NOT NULL,
	"confirms" date,
	"together" boolean NOT NULL,
	"cost_dried_kg" double precision,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "signals_change_once_a_record" PRIMARY KEY("site","method","measure","raised_on","direction","month","ledger_index")
);
--> statement-breakpoint
CREATE TABLE "watched_months" (
	"month" text NOT NULL,
	"edition" text NOT NULL,
	"accepted" double precision NOT NULL,
	"reading" text NOT NULL,
	"limits" jsonb NOT NULL,
	"groups" jsonb NOT NULL,
	"streams" integer NOT NULL,
	"points" integer NOT NULL,
	"expected_false" double precision NOT NULL,
	"known_size" bigint NOT NULL,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "watched_months_change_once_a_record" PRIMARY KEY("month","ledger_index")
);
--> statement-breakpoint
CREATE TABLE "watched_streams" (
	"month" text NOT NULL,
	"site" integer NOT NULL,
	"method" text NOT NULL,
	"measure" text NOT NULL,
	"points" integer NOT NULL,
	"reference_from" date,
	"begun_by" text NOT NULL,
	"learnt" integer NOT NULL,
	"unit" double precision,
	"level" double precision,
	"slow" jsonb,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "watched_streams_change_once_a_record" PRIMARY KEY("month","site","method","measure","ledger_index")
);
--> statement-breakpoint
CREATE INDEX "signal_answers_in_order_of_records" ON "signal_answers" USING brin ("ledger_index");--> statement-breakpoint
CREATE INDEX "signals_by_day" ON "signals" USING btree ("raised_on");--> statement-breakpoint
CREATE INDEX "signals_in_order_of_records" ON "signals" USING brin ("ledger_index");--> statement-breakpoint
CREATE INDEX "watched_months_in_order_of_records" ON "watched_months" USING brin ("ledger_index");--> statement-breakpoint
CREATE INDEX "watched_streams_in_order_of_records" ON "watched_streams" USING brin ("ledger_index");
--> statement-breakpoint
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['watched_months', 'watched_streams', 'signals', 'signal_answers'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION evendry_refuse_change()', t || '_keeps_rows', t);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION evendry_refuse_change()', t || '_keeps_all', t);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY %I ON %I FOR INSERT WITH CHECK ((SELECT evendry_writes_all()))', t || '_written_by_officers', t);
  END LOOP;

  -- A site lead sees the own site's signals, never what the sites did together (site 0).
  FOREACH t IN ARRAY ARRAY['watched_streams', 'signals', 'signal_answers'] LOOP
    EXECUTE format('CREATE POLICY %I ON %I FOR SELECT USING ((SELECT evendry_sees_all()) OR site = ANY ((SELECT evendry_sites())::integer[]))',
                   t || '_seen_by_site', t);
  END LOOP;

  -- Limits are the same for everybody who may act at all.
  CREATE POLICY watched_months_seen_by_people ON watched_months FOR SELECT USING ((SELECT evendry_role()) IS NOT NULL);
END $$;
