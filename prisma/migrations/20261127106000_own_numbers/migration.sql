-- More of our own calibration that a network may set, and sensors that say how often they report.

alter table calibration_value drop constraint calibration_value_library_check;
alter table calibration_value add constraint calibration_value_library_check check (library in ('people', 'climate', 'alarms', 'planning', 'care'));

-- How often it is expected to report; null while nobody has said. Its place is called silent by it.
alter table sensor add column expected_every_minutes integer check (expected_every_minutes between 1 and 10080);
