-- The second wall. Who asks is in the setting evendry.person, set for one transaction by asPerson;
-- what that person may see is looked up here, once a statement, and never taken from the request.
CREATE FUNCTION evendry_person() RETURNS uuid LANGUAGE sql STABLE SET search_path = ''
  AS $$ SELECT nullif(current_setting('evendry.person', true), '')::uuid $$;
--> statement-breakpoint
CREATE FUNCTION evendry_role() RETURNS text LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT p.role FROM public.people p WHERE p.id = public.evendry_person()
        AND p.ledger_index = (SELECT max(q.ledger_index) FROM public.people q WHERE q.id = p.id) AND p.active $$;
--> statement-breakpoint
CREATE FUNCTION evendry_sees_all() RETURNS boolean LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT coalesce(public.evendry_role() IN ('operator', 'officer', 'auditor'), false) $$;
--> statement-breakpoint
CREATE FUNCTION evendry_sites() RETURNS integer[] LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT coalesce(array_agg(p.site) FILTER (WHERE p.site IS NOT NULL), '{}') FROM public.people p WHERE p.id = public.evendry_person()
        AND p.ledger_index = (SELECT max(q.ledger_index) FROM public.people q WHERE q.id = p.id) AND p.active $$;
--> statement-breakpoint
CREATE FUNCTION evendry_writes_all() RETURNS boolean LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT coalesce(public.evendry_role() IN ('operator', 'officer'), false) $$;
--> statement-breakpoint
CREATE FUNCTION evendry_head() RETURNS TABLE (size bigint, at timestamptz, peaks text[]) LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT l.index, l.at, l.peaks FROM public.ledger l ORDER BY l.index DESC LIMIT 1 $$;
--> statement-breakpoint
-- The size of the ledger as known at a time: everything before the first record that is later.
CREATE FUNCTION evendry_size_at(moment timestamptz) RETURNS TABLE (size bigint, at timestamptz) LANGUAGE sql STABLE SECURITY DEFINER SET search_path = ''
  AS $$ SELECT l.index, l.at FROM public.ledger l WHERE l.index < coalesce((SELECT min(m.index) FROM public.ledger m WHERE m.at > moment), 9223372036854775807)
        ORDER BY l.index DESC LIMIT 1 $$;
--> statement-breakpoint
CREATE FUNCTION evendry_refuse_change() RETURNS trigger LANGUAGE plpgsql
  AS $$ BEGIN RAISE EXCEPTION '% keeps what was recorded: nothing in it is changed or removed', TG_TABLE_NAME USING ERRCODE = '2F002'; END $$;
--> statement-breakpoint
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['ledger', 'sites', 'facts', 'people', 'files', 'file_states', 'file_bytes', 'rows', 'row_batches', 'batch_revisions',
                           'day_sums', 'month_sums', 'fuel_entries', 'fuel_spans', 'publications'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION evendry_refuse_change()', t || '_keeps_rows', t);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION evendry_refuse_change()', t || '_keeps_all', t);
  END LOOP;
  CREATE TRIGGER sealed_is_not_rewritten BEFORE UPDATE ON sealed FOR EACH ROW EXECUTE FUNCTION evendry_refuse_change();

  -- Tables with a site of their own: officers, auditors and the operator see all, a site lead the own site.
  FOREACH t IN ARRAY ARRAY['facts', 'rows', 'row_batches', 'batch_revisions', 'day_sums', 'month_sums', 'fuel_entries', 'fuel_spans', 'publications',
                           'files', 'file_states', 'ledger', 'sealed'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY %I ON %I FOR SELECT USING ((SELECT evendry_sees_all()) OR site = ANY ((SELECT evendry_sites())::integer[])%s)',
                   t || '_seen_by_site', t, CASE WHEN t = 'facts' THEN ' OR site = 0' ELSE '' END);
    EXECUTE format('CREATE POLICY %I ON %I FOR INSERT WITH CHECK ((SELECT evendry_writes_all()) OR site = ANY ((SELECT evendry_sites())::integer[]))',
                   t || '_written_by_site', t);
  END LOOP;
  CREATE POLICY sealed_erased_by_officers ON sealed FOR DELETE USING ((SELECT evendry_writes_all()));

  ALTER TABLE sites ENABLE ROW LEVEL SECURITY;
  CREATE POLICY sites_seen_by_site ON sites FOR SELECT USING ((SELECT evendry_sees_all()) OR id = ANY ((SELECT evendry_sites())::integer[]));
  CREATE POLICY sites_opened_by_officers ON sites FOR INSERT WITH CHECK ((SELECT evendry_writes_all()));

  ALTER TABLE people ENABLE ROW LEVEL SECURITY;
  CREATE POLICY people_seen_by_those_who_see_all ON people FOR SELECT USING ((SELECT evendry_sees_all()) OR id = (SELECT evendry_person()));
  CREATE POLICY people_decided_by_officers ON people FOR INSERT WITH CHECK ((SELECT evendry_writes_all()));

  -- Bytes are found by their hash, which only those learn who may see the file.
  ALTER TABLE file_bytes ENABLE ROW LEVEL SECURITY;
  CREATE POLICY file_bytes_seen_with_their_file ON file_bytes FOR SELECT USING ((SELECT evendry_sees_all()) OR EXISTS (SELECT 1 FROM files f WHERE f.sha256 = file_bytes.sha256));
  CREATE POLICY file_bytes_kept_by_senders ON file_bytes FOR INSERT WITH CHECK ((SELECT evendry_role()) IN ('operator', 'officer', 'lead'));
END $$;
