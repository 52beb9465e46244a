CREATE TABLE "month_latest" (
	"month" text NOT NULL,
	"site" integer NOT NULL,
	"method" text NOT NULL,
	"sums" json,
	"ledger_index" bigint NOT NULL,
	CONSTRAINT "month_latest_is_one_row" PRIMARY KEY("month","site","method")
);
--> statement-breakpoint
-- The month sums of a site and method as known at a size of the ledger, of the measures by which sites are compared.
-- Doubles are written with the fewest digits that read back to the same bits.
CREATE FUNCTION evendry_month_sums(of_month text, of_site integer, of_method text, known_size bigint) RETURNS json
  LANGUAGE sql STABLE SET search_path = '' SET extra_float_digits = 1
  AS $$ SELECT json_object_agg(measure, json_build_array(days, batches, loads, num, den, num2, den2, num_den) ORDER BY measure) FROM (
          SELECT DISTINCT ON (s.measure) s.* FROM public.month_sums s
          WHERE s.month = of_month AND s.site = of_site AND s.method = of_method AND s.ledger_index <= known_size
            AND s.measure IN ('here', 'fresh', 'dry-yield', 'pan-time', 'scale')
          ORDER BY s.measure, s.ledger_index DESC) latest
        WHERE batches > 0 $$;
--> statement-breakpoint
CREATE FUNCTION evendry_keep_latest() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = ''
  AS $$ BEGIN
    INSERT INTO public.month_latest
      SELECT a.month, a.site, a.method, public.evendry_month_sums(a.month, a.site, a.method, 9223372036854775807), max(a.ledger_index)
      FROM added a GROUP BY a.month, a.site, a.method
      ON CONFLICT (month, site, method) DO UPDATE SET sums = excluded.sums, ledger_index = excluded.ledger_index;
    RETURN NULL;
  END $$;
--> statement-breakpoint
INSERT INTO month_latest SELECT month, site, method, evendry_month_sums(month, site, method, 9223372036854775807), max(ledger_index)
  FROM month_sums GROUP BY month, site, method;
--> statement-breakpoint
CREATE TRIGGER month_sums_keep_latest AFTER INSERT ON month_sums REFERENCING NEW TABLE AS added FOR EACH STATEMENT EXECUTE FUNCTION evendry_keep_latest();
--> statement-breakpoint
ALTER TABLE month_latest ENABLE ROW LEVEL SECURITY;
--> statement-breakpoint
-- Only the trigger writes here: there is no policy by which anybody else could.
CREATE POLICY month_latest_seen_by_site ON month_latest FOR SELECT USING ((SELECT evendry_sees_all()) OR site = ANY ((SELECT evendry_sites())::integer[]));
