DO $$
BEGIN      IF NOT EXISTS (SELECT 1 FROM pg_catalog.pg_namespace WHERE nspname = 'fettle') THEN
        BEGIN
          EXECUTE 'CREATE SCHEMA IF NOT EXISTS fettle';
        EXCEPTION
          WHEN duplicate_schema THEN NULL;
          WHEN unique_violation THEN NULL;
        END;
      END IF;

END
$$;


CREATE TABLE IF NOT EXISTS fettle.mt_doc_dockpickup (
    id                  uuid                        NOT NULL,
    data                jsonb                       NOT NULL,
    mt_last_modified    timestamp with time zone    NULL DEFAULT (transaction_timestamp()),
    mt_dotnet_type      varchar                     NULL,
    mt_version          bigint                      NOT NULL DEFAULT 0,
    terminal_id         uuid                        NULL,
    shipper_id          uuid                        NULL,
    is_here             boolean                     NULL,
    window_from         timestamp with time zone    NULL,
    window_to           timestamp with time zone    NULL,
    since               timestamp with time zone    NULL,
CONSTRAINT pkey_mt_doc_dockpickup_id PRIMARY KEY (id)
);

CREATE INDEX mt_doc_dockpickup_idx_terminal_id ON fettle.mt_doc_dockpickup USING btree (terminal_id);

CREATE INDEX mt_doc_dockpickup_idx_shipper_id ON fettle.mt_doc_dockpickup USING btree (shipper_id);

CREATE INDEX mt_doc_dockpickup_idx_is_here ON fettle.mt_doc_dockpickup USING btree (is_here);

CREATE INDEX mt_doc_dockpickup_idx_window_from ON fettle.mt_doc_dockpickup USING btree (window_from);

CREATE INDEX mt_doc_dockpickup_idx_window_to ON fettle.mt_doc_dockpickup USING btree (window_to);

CREATE INDEX mt_doc_dockpickup_idx_since ON fettle.mt_doc_dockpickup USING btree (since);
CREATE TABLE IF NOT EXISTS fettle.mt_doc_heldunit (
    id                   uuid                        NOT NULL,
    data                 jsonb                       NOT NULL,
    mt_last_modified     timestamp with time zone    NULL DEFAULT (transaction_timestamp()),
    mt_dotnet_type       varchar                     NULL,
    mt_version           bigint                      NOT NULL DEFAULT 0,
    pickup_id            uuid                        NULL,
    shipper_id           uuid                        NULL,
    waits                boolean                     NULL,
    held_since           timestamp with time zone    NULL,
    window_from          timestamp with time zone    NULL,
    watch_from           timestamp with time zone    NULL,
    fragile              boolean                     NULL,
    floor_square_feet    double precision            NULL,
    due_by               timestamp with time zone    NULL,
    terminal_id          uuid                        NULL,
CONSTRAINT pkey_mt_doc_heldunit_id PRIMARY KEY (id)
);

CREATE INDEX mt_doc_heldunit_idx_pickup_id ON fettle.mt_doc_heldunit USING btree (pickup_id);

CREATE INDEX mt_doc_heldunit_idx_shipper_id ON fettle.mt_doc_heldunit USING btree (shipper_id);

CREATE INDEX mt_doc_heldunit_idx_waits ON fettle.mt_doc_heldunit USING btree (waits);

CREATE INDEX mt_doc_heldunit_idx_held_since ON fettle.mt_doc_heldunit USING btree (held_since);

CREATE INDEX mt_doc_heldunit_idx_window_from ON fettle.mt_doc_heldunit USING btree (window_from);

CREATE INDEX mt_doc_heldunit_idx_watch_from ON fettle.mt_doc_heldunit USING btree (watch_from);

CREATE INDEX mt_doc_heldunit_idx_fragile ON fettle.mt_doc_heldunit USING btree (fragile);

CREATE INDEX mt_doc_heldunit_idx_floor_square_feet ON fettle.mt_doc_heldunit USING btree (floor_square_feet);

CREATE INDEX mt_doc_heldunit_idx_due_by ON fettle.mt_doc_heldunit USING btree (due_by);

CREATE INDEX mt_doc_heldunit_idx_terminal_id ON fettle.mt_doc_heldunit USING btree (terminal_id);

CREATE INDEX mt_doc_heldunit_idx_data ON fettle.mt_doc_heldunit USING gin (data jsonb_path_ops);
