#!/usr/bin/env python3
"""One word for one thing: words that mean two things, or that an artist or a lighting designer misreads, are no key, no
choice of a key, no command, no option and no key of a JSON file.

words.py PROGRAM ROOT
"""
import json
import pathlib
import re
import subprocess
import sys
import unittest

PROGRAM, ROOT = sys.argv[1], pathlib.Path(sys.argv[2])

# SECTION.KEY, or KEY of any section.
KEYS = '''panel.substrate.bed have glassy_patch stock.NAME.grain tints.NAME.grain pigments.NAME.tint pigments.NAME.masstone
drawing.map fields.patch fields.lean_toward fields.mix.picture.diffusion fields.boulders.proud daylight.zone dimming
lamps.beam lamps.field aside error board.coupon board.window board.eye board.a_line portfolio.scale portfolio.walk
glare.hot glare.blinding glare.outshines glare.patch glare.veil glare.sparks zones.spare zones.each.ZONE.spare
hanging.factor'''
# KEY = a choice of it.
CHOICES = '''firing=held form=of_material setting=by_hand setting=pressed setting=smalti setting=riven setting=alive
form=panel exposure=eye show=walk-by place=over_a_bed'''
COMMANDS = 'takeoff'
OPTIONS = '''--no-halo --share --error --unfinished --keep --scale --hot --blinding --patch --veil'''
JSON_KEYS = 'turn halo error sparks tiles kind_of lux grams easy_day within dE coupon'


def split(words):
    return [word.replace('_', ' ') for word in words.split()]


def printed(*words):
    return subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=True).stdout


def commands():
    listed = printed('--help').split('\nCommands')[1].split('\nOptions')[0]
    return re.findall(r'^  ([a-z-]+) ', listed, re.MULTILINE)


class Words(unittest.TestCase):
    def test_keys(self):
        tables = json.loads(printed('keys', '--json'))['sections']
        keys = {f'{table["section"]}.{row["key"]}' for table in tables for row in table['keys']}
        self.assertGreater(len(keys), 300)
        for word in split(KEYS):
            found = [key for key in keys if key == word or ('.' not in word and key.endswith('.' + word))]
            self.assertEqual(found, [], word)

    def test_rules_name_keys_of_their_own_section(self):
        rules = 0
        for section in printed('keys', '--markdown').split('\n## ')[1:]:
            keys = set(re.findall(r'^\| `([^`]+)` \|', section, re.MULTILINE))
            for named in re.findall(r'^- (?:One of |No more than one of |At least one of )?(.*?)(?: go together| must be given.*)?\.$',
                                    section, re.MULTILINE):
                rules += 1
                for key in re.split(r', | and ', named):
                    # "transmittance at 3 mm" stands for any thickness.
                    self.assertIn(key, keys, section.split('\n')[0])
        self.assertGreater(rules, 20)

    def test_choices(self):
        text = printed('keys', '--markdown')
        for key, choice in (word.split('=') for word in split(CHOICES)):
            rows = [row.split('|')[2] for row in text.split('\n') if row.startswith(f'| `{key}` |')]
            self.assertTrue(rows, key)
            for row in rows:
                self.assertNotIn(choice, re.split(r', | or |, each |a list', row.strip()), key)

    def test_commands_and_options(self):
        known = commands()
        self.assertIn('take-off', known)
        self.assertNotIn(COMMANDS, known)
        for command in known:
            options = re.findall(r'^  (--[a-z-]+)', printed(command, '--help'), re.MULTILINE)
            self.assertEqual([o for o in options if o in OPTIONS.split()], [], command)

    def test_keys_of_json(self):
        def keys(schema):
            if isinstance(schema, dict):
                yield from schema.get('properties', {})
                for value in schema.values():
                    yield from keys(value)
            elif isinstance(schema, list):
                for value in schema:
                    yield from keys(value)
        files = sorted((ROOT / 'output/manual/schemas').glob('*.json'))
        self.assertTrue(files)
        for file in files:
            self.assertEqual(set(keys(json.loads(file.read_text()))) & set(JSON_KEYS.split()), set(), file.name)

    def test_the_manual_names_no_option_that_is_gone(self):
        for page in sorted((ROOT / 'output/manual').glob('*.md')) + [ROOT / 'README.md']:
            for option in OPTIONS.split():
                self.assertNotRegex(page.read_text(), rf'(?<![\w-]){option}(?![\w-])', page.name)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])
