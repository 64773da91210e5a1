"""The page in headless Chromium: clicked, dragged, typed at, and its pixels read.

Judges: the PNG as the browser decodes it; additivity of light (Grassmann's third law); ISO 2720 for what a print
shows as white; published CIELAB values of the sRGB primaries (D65, from IEC 61966-2-1 and CIE 015; red 53.2 80.1
67.2, blue 32.3 79.2 -107.9, as in any colour text).

page_in_browser.py RAKELIGHT SCENES CHROMIUM CHROMEDRIVER
"""
import base64
import json
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import time
import unittest
import zlib
from pathlib import Path

from selenium import webdriver
from selenium.webdriver import ActionChains, Keys
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By

RAKELIGHT, SCENES, CHROMIUM, CHROMEDRIVER = sys.argv[1:5]

# Reads RGBA of an image given as data URL, and of the canvas of a figure.
PIXELS_OF_IMAGE = """
const [source, done] = arguments, image = new Image();
image.onload = () => {
  const c = document.createElement('canvas');
  [c.width, c.height] = [image.naturalWidth, image.naturalHeight];
  const context = c.getContext('2d');
  context.drawImage(image, 0, 0);
  done([c.width, c.height, [...context.getImageData(0, 0, c.width, c.height).data]]);
};
image.src = source;
"""
PIXELS_OF_CANVAS = """
const c = document.querySelector('figure canvas');
return [...c.getContext('2d').getImageData(0, 0, c.width, c.height).data];
"""


def png_of(rgb, side=90):
    """A PNG of one colour, written after the PNG specification, chunk by chunk."""
    def chunk(kind, data):
        return struct.pack('>I', len(data)) + kind + data + struct.pack('>I', zlib.crc32(kind + data))
    rows = (b'\0' + bytes(rgb) * side) * side
    return (b'\x89PNG\r\n\x1a\n' + chunk(b'IHDR', struct.pack('>IIBBBBB', side, side, 8, 2, 0, 0, 0)) +
            chunk(b'IDAT', zlib.compress(rows)) + chunk(b'IEND', b''))


def linear(byte):
    v = byte / 255
    return v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4


def rakelight(*words):
    subprocess.run([RAKELIGHT, *map(str, words)], check=True, stdout=subprocess.DEVNULL)


def make_board(folder):
    cells = [('red', (255, 0, 0)), ('blue', (0, 0, 255)), ('white', (255, 255, 255)), ('black', (0, 0, 0))]
    for i, (_, rgb) in enumerate(cells):
        (folder / f'board-1-{i + 1}.png').write_bytes(png_of(rgb))
    board = {'format': 'rakelight board', 'title': 'Four grouts', 'files': ['board.png'], 'rows': [{'label': ''}],
             'columns': [{'label': name} for name, _ in cells],
             'cells': [{'file': f'board-1-{i + 1}.png', 'row': 0, 'column': i, 'label': name, 'rank': i + 1,
                        'numbers': {'contrast': {'ciede2000': 3.5}, 'resolves_to_m': 4}}
                       for i, (name, _) in enumerate(cells)]}
    (folder / 'board.json').write_text(json.dumps(board))


def make_comparison(folder):
    for what, rgb in (('', (128, 128, 128)), ('-photograph', (255, 0, 0)), ('-picture', (0, 0, 255))):
        (folder / f'compare-straight{what}.png').write_bytes(png_of(rgb))
    (folder / 'compare-straight.json').write_text(json.dumps({
        'format': 'rakelight comparison', 'photograph': 'panel.jpg', 'picture': 'straight', 'median_ciede2000': 1.5,
        'ninety_percent_ciede2000': 4,
        'files': [f'compare-straight{what}.png' for what in ('', '-photograph', '-picture')]}))


class Page(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.work = Path(tempfile.mkdtemp(prefix='rakelight-page-'))
        cls.addClassCleanup(shutil.rmtree, cls.work)
        cls.folder = cls.work / 'low-tide'
        rakelight('preview', f'{SCENES}/low-tide.yaml', '--picture', 'straight', '--size', '260x200', '--most-samples',
                  '16', '--into', cls.work, '--quiet')
        make_board(cls.folder)
        make_comparison(cls.folder)
        rakelight('clip', f'{SCENES}/low-tide.yaml', '--only', 'dimmed', '--size', '128x72', '--seconds', '2',
                  '--most-samples', '1', '--into', cls.work, '--quiet')
        rakelight('page', cls.folder)
        cls.record = json.loads((cls.folder / 'straight.json').read_text())
        options = Options()
        options.binary_location = CHROMIUM
        for argument in ('--headless=new', '--no-sandbox', '--disable-dev-shm-usage', '--disable-gpu',
                         '--hide-scrollbars', '--window-size=1280,1000'):
            options.add_argument(argument)
        options.set_capability('goog:loggingPrefs', {'browser': 'ALL'})
        cls.browser = webdriver.Chrome(service=Service(CHROMEDRIVER), options=options)
        cls.addClassCleanup(cls.browser.quit)
        cls.browser.set_script_timeout(60)
        cls.prefer('light')

    @classmethod
    def prefer(cls, scheme):
        features = {'prefers-color-scheme': scheme, 'prefers-reduced-motion': 'reduce'}  # clicks hit what is still
        cls.browser.execute_cdp_cmd('Emulation.setEmulatedMedia', {
            'features': [{'name': name, 'value': value} for name, value in features.items()]})

    def setUp(self):
        self.open(self.folder / 'index.html')

    def open(self, page):
        self.browser.get(page.as_uri())
        self.wait(lambda: self.browser.find_elements(By.CSS_SELECTOR, 'figure canvas') and self.painted() > 0)

    def wait(self, condition, seconds=30):
        end = time.monotonic() + seconds
        while not condition():
            self.assertLess(time.monotonic(), end, 'waited in vain')
            time.sleep(0.02)

    def one(self, selector):
        return self.browser.find_element(By.CSS_SELECTOR, selector)

    def painted(self):
        return int(self.one('figure[data-light]').get_attribute('data-painted') or 0)

    def repainted(self, act):
        before = self.painted()
        act()
        self.wait(lambda: self.painted() > before)

    def canvas_pixels(self):
        return self.browser.execute_script(PIXELS_OF_CANVAS)

    def pixels_of(self, png):
        source = 'data:image/png;base64,' + base64.b64encode(png).decode()
        return self.browser.execute_async_script(PIXELS_OF_IMAGE, source)

    def dimmers(self):
        return self.browser.find_elements(By.CSS_SELECTOR, '.lamp:not(.exposure) input[type=range]')

    def switches(self):
        return self.browser.find_elements(By.CSS_SELECTOR, '.lamp .switch')

    def reading(self):
        return self.one('figure[data-light] .reading').text

    def test_all_lamps_full_is_the_png(self):
        width, height, png = self.pixels_of((self.folder / 'straight.png').read_bytes())
        self.assertEqual((width, height), (260, 200))
        mixed = self.canvas_pixels()
        self.assertEqual(len(mixed), len(png))
        self.assertLessEqual(max(abs(a - b) for a, b in zip(png, mixed)), 2)
        # The picture has what is hard to get right: glints beyond white, and shadows.
        self.assertGreater(sum(1 for v in png[0::4] if v > 250), 5)
        self.assertGreater(sum(1 for v in png[0::4] if v < 20), 100)

    def test_lamps_add_up_as_light_does(self):
        # Without the glow of glints, which depends on how far beyond white they are.
        plain = self.work / 'plain'
        shutil.copytree(self.folder, plain)
        record = dict(self.record, exposure=dict(self.record['exposure'], glow=False))
        for seal in ('checksums', 'checksum'):
            record.pop(seal)
        (plain / 'straight.json').write_text(json.dumps(record))
        rakelight('page', plain)
        self.open(plain / 'index.html')
        both = self.canvas_pixels()
        first, second = self.switches()
        self.repainted(second.click)
        alone = self.canvas_pixels()
        self.repainted(second.click)
        self.repainted(first.click)
        other = self.canvas_pixels()
        checked = 0
        for i in range(0, len(both), 4):
            if max(both[i:i + 3]) > 200 or min(alone[i:i + 3] + other[i:i + 3]) < 12:
                continue  # bent by the shoulder, or rounded too coarsely
            for c in range(3):
                total = linear(alone[i + c]) + linear(other[i + c])
                # Half a step of 255 in each of the three, where a step is worth so much light.
                step = max(linear(v[i + c] + 1) - linear(v[i + c]) for v in (both, alone, other))
                self.assertLess(abs(total - linear(both[i + c])), 2.5 * step)
                checked += 1
        self.assertGreater(checked, 5000)

    def test_switches_go_out_and_come_back(self):
        before = self.canvas_pixels()
        first, second = self.switches()
        self.repainted(first.click)
        self.assertNotEqual(self.canvas_pixels(), before)
        self.repainted(second.click)
        dark = self.canvas_pixels()
        self.assertEqual(max(max(dark[c::4]) for c in range(3)), 0)
        self.assertIn('0 lx', self.one('.total').text)
        self.repainted(self.one('.lamps > button').click)
        self.assertEqual(self.canvas_pixels(), before)

    def test_half_a_lamp_is_half_the_light(self):
        first, second = self.switches()
        self.repainted(second.click)
        canvas = self.one('figure canvas')
        ActionChains(self.browser).move_to_element(canvas).perform()
        full = float(re.match(r'([\d.]+) cd/m', self.reading())[1])
        full_lab = re.search(r'L\*.*b\* \S+', self.reading())[0]
        dimmer = self.dimmers()[0]
        self.browser.execute_script('arguments[0].focus()', dimmer)
        self.repainted(lambda: dimmer.send_keys(Keys.ARROW_LEFT * 50))
        self.wait(lambda: dimmer.get_attribute('value') == '50' and '50 %' in self.one('.lamp output').text)
        self.wait(lambda: not self.reading().startswith(f'{full:g} '))
        half = float(re.match(r'([\d.]+) cd/m', self.reading())[1])
        self.assertAlmostEqual(half / full, 0.5, delta=0.01)  # three figures are shown
        # Against a card under the same light its colour is what it was.
        self.assertEqual(re.search(r'L\*.*b\* \S+', self.reading())[0], full_lab)
        group = self.record['lamp_groups'][0]
        self.assertIn(f"{round(group['illuminance_on_panel_lx'] / 2)} lx", self.one('.total').text)

    def test_the_reading_is_the_light_that_the_print_shows(self):
        # A print is straight up to four fifths of white; white lies where ISO 2720 puts an 18 % card's 1 / 0.18.
        width, _, png = self.pixels_of((self.folder / 'straight.png').read_bytes())
        middle = 2 ** self.record['exposure']['ev100'] * 12.5 / 100
        canvas = self.one('figure canvas')
        self.browser.execute_script('arguments[0].focus()', canvas)
        canvas.send_keys(Keys.ARROW_LEFT)  # starts in the middle
        x, y = width // 2 - 1, 100
        seen = 0
        for _ in range(60):
            canvas.send_keys(Keys.SHIFT + Keys.ARROW_LEFT + Keys.NULL if x > 40 else Keys.ARROW_DOWN)
            x, y = (x - 10, y) if x > 40 else (x, y + 1)
            r, g, b = png[4 * (y * width + x):][:3]
            grey = max(r, g, b) - min(r, g, b) < 24
            if grey and 60 < g < 200:
                printed = 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b)
                told = float(re.match(r'([\d.]+) cd/m', self.reading())[1])
                # White balance moves luminances of greys by a few per cent at most; bytes round by as much.
                self.assertAlmostEqual(told / (printed * middle / 0.18), 1, delta=0.06)
                seen += 1
        self.assertGreater(seen, 3)
        self.assertTrue(self.one('figure[data-light] .mark').is_displayed())

    def test_number_keys_switch_lamps(self):
        canvas = self.one('figure canvas')
        self.browser.execute_script('arguments[0].focus()', canvas)
        self.repainted(lambda: canvas.send_keys('2'))
        self.assertIn('off', self.browser.find_elements(By.CSS_SELECTOR, '.lamp output')[1].text)
        self.repainted(lambda: canvas.send_keys('2'))
        self.assertIn('100 %', self.browser.find_elements(By.CSS_SELECTOR, '.lamp output')[1].text)

    def test_keys_work_from_everywhere(self):
        self.browser.execute_script("document.activeElement.blur(); scrollTo(0, 0)")
        body = self.one('body')
        self.browser.execute_script("document.querySelector('figure[data-light]').scrollIntoView({block: 'center'})")
        self.repainted(lambda: body.send_keys('2'))
        self.assertIn('off', self.browser.find_elements(By.CSS_SELECTOR, '.lamp output')[1].text)
        self.repainted(lambda: body.send_keys('2'))
        self.browser.execute_script("document.querySelector('figure.board').scrollIntoView({block: 'center'})")
        body.send_keys('b')
        self.wait(lambda: self.one('figure.board .blink').get_attribute('aria-pressed') == 'true')
        body.send_keys('b')
        before = self.one('.compare .line').get_attribute('aria-valuenow')
        body.send_keys(Keys.ARROW_RIGHT)
        self.assertGreater(int(self.one('.compare .line').get_attribute('aria-valuenow')), int(before))

    def colours_across(self, *shares, on='.compare'):
        width, height, pixels = self.pixels_of(self.one(on).screenshot_as_png)
        return [tuple(pixels[4 * (height // 4 * width + int(share * width)):][:3]) for share in shares]

    def test_a_board_is_compared_by_dragging(self):
        red, blue = (255, 0, 0), (0, 0, 255)
        self.browser.execute_script("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})",
                                    self.one('.compare'))
        self.assertEqual(self.colours_across(0.2, 0.8), [red, blue])
        line = self.one('.line')
        width = self.one('.compare').size['width']
        ActionChains(self.browser).click_and_hold(line).move_by_offset(int(0.2 * width), 0).release().perform()
        self.assertAlmostEqual(int(line.get_attribute('aria-valuenow')), 70, delta=2)
        self.assertEqual(self.colours_across(0.6, 0.8), [red, blue])
        line.send_keys(Keys.HOME)
        self.assertEqual(self.colours_across(0.1, 0.9), [blue, blue])
        line.send_keys(Keys.ARROW_RIGHT)
        self.assertEqual(line.get_attribute('aria-valuenow'), '2')
        line.send_keys(Keys.END)
        self.assertEqual(self.colours_across(0.1, 0.9), [red, red])
        # The next cell that is clicked takes the right side, the one after it the left.
        buttons = self.browser.find_elements(By.CSS_SELECTOR, '.cells button')
        buttons[2].click()
        buttons[3].click()
        names = self.browser.find_elements(By.CSS_SELECTOR, 'figure.board:not([id$="-pair"]) .names .name')
        self.assertEqual([n.text for n in names], ['black', 'white'])

    def test_a_board_blinks(self):
        figure = self.one('figure.board')
        blink = self.one('.blink')
        blink.click()
        seen = {}
        self.wait(lambda: seen.setdefault(figure.get_attribute('data-shown'), True) and len(seen) == 2)
        self.assertEqual(set(seen), {'1', '2'})
        blink.click()
        self.assertEqual(figure.get_attribute('data-shown'), 'both')

    def test_photograph_and_picture_lie_over_each_other(self):
        red, blue = (255, 0, 0), (0, 0, 255)
        pair = '[id$="-pair"] '
        self.browser.execute_script("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})",
                                    self.one(pair + '.compare'))
        self.assertEqual([n.text for n in self.browser.find_elements(By.CSS_SELECTOR, pair + '.names .name')],
                         ['Photograph', 'Picture'])
        self.assertEqual(self.colours_across(0.2, 0.8, on=pair + '.compare'), [red, blue])
        line = self.one(pair + '.line')
        width = self.one(pair + '.compare').size['width']
        ActionChains(self.browser).click_and_hold(line).move_by_offset(int(0.3 * width), 0).release().perform()
        self.assertEqual(self.colours_across(0.2, 0.6, on=pair + '.compare'), [red, red])
        self.one(pair + '.blink').click()
        seen = {}
        self.wait(lambda: seen.setdefault(self.one(pair).get_attribute('data-shown'), True) and len(seen) == 2)
        self.assertEqual(set(seen), {'1', '2'})
        self.one(pair + '.blink').click()
        # Neither is shown a second time by itself; the sheet is.
        stills = self.browser.execute_script(
            "return [...document.querySelectorAll('figure:not(.board) figcaption a')].map((a) => a.textContent)")
        self.assertIn('compare-straight.png', stills)
        self.assertNotIn('compare-straight-picture.png', stills)

    def test_a_clip_is_gone_through_by_dragging(self):
        video = self.one('figure.clip video')
        self.browser.execute_script("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})", video)
        self.wait(lambda: self.browser.execute_script('return arguments[0].readyState', video) >= 2)
        state = lambda: self.browser.execute_script(
            'const v = arguments[0]; return [v.duration, v.currentTime, v.paused, v.videoWidth]', video)
        duration, at, paused, width = state()
        self.assertAlmostEqual(duration, 2, delta=0.05)
        self.assertEqual((at, paused, width), (0, True, 128))  # motion is not wanted here: it waits
        wide = video.size['width']
        (ActionChains(self.browser).move_to_element_with_offset(video, int(-0.4 * wide), 0).click_and_hold()
         .move_by_offset(int(0.65 * wide), 0).release().perform())
        self.wait(lambda: abs(state()[1] - 0.75 * duration) < 0.06)
        self.assertTrue(state()[2])
        video.send_keys(Keys.ARROW_LEFT)
        self.wait(lambda: abs(state()[1] - 0.73 * duration) < 0.06)
        video.click()
        self.wait(lambda: not state()[2])
        video.click()
        self.wait(lambda: state()[2])

    def test_cells_are_read_in_lab(self):
        compare = self.one('.compare')
        read = lambda: self.one('figure.board .reading').text
        left = -int(compare.size['width'] * 0.3)
        ActionChains(self.browser).move_to_element_with_offset(compare, left, 20).perform()
        self.assertRegex(read(), r'L\* 53\.2  a\* 80\.1  b\* 67\.2')
        ActionChains(self.browser).move_to_element_with_offset(compare, -left, 20).perform()
        self.assertRegex(read(), r'L\* 32\.3  a\* 79\.2  b\* \u2212107\.9')

    def test_it_needs_nothing_but_itself(self):
        page = self.work / 'alone.html'
        shutil.copy(self.folder / 'index.html', page)
        self.open(page)
        names = self.browser.execute_script("return performance.getEntriesByType('resource').map((e) => e.name)")
        self.assertEqual([n for n in names if not n.startswith(('data:', 'blob:'))], [])
        self.assertEqual([e['message'] for e in self.browser.get_log('browser')], [])

    def test_every_picture_says_what_it_is(self):
        missing = self.browser.execute_script("""
          return [...document.querySelectorAll('main img, main canvas')]
            .filter((e) => !(e.getAttribute('aria-label') || e.alt)).length""")
        self.assertEqual(missing, 0)
        unnamed = self.browser.execute_script("""
          return [...document.querySelectorAll('input, select, button, [role=slider]')]
            .filter((e) => !(e.getAttribute('aria-label') || e.textContent.trim() || e.labels?.length)).length""")
        self.assertEqual(unnamed, 0)

    def test_light_and_dark_rooms(self):
        wall = lambda: self.browser.execute_script(
            "return Number(getComputedStyle(document.body).backgroundColor.match(/\\d+/)[0])")
        for scheme, switched in (('dark', 'light'), ('light', 'dark')):
            self.prefer(scheme)
            self.browser.execute_script('localStorage.clear()')
            self.open(self.folder / 'index.html')
            self.assertEqual(wall() < 128, scheme == 'dark')
            self.one('.room').click()
            self.assertEqual(wall() < 128, switched == 'dark')
            self.open(self.folder / 'index.html')
            self.assertEqual(wall() < 128, switched == 'dark', 'the choice is remembered')
        self.browser.execute_script('localStorage.clear()')

    def test_nothing_is_wider_than_a_phone(self):
        self.browser.execute_cdp_cmd('Emulation.setDeviceMetricsOverride',
                                     {'width': 390, 'height': 844, 'deviceScaleFactor': 2, 'mobile': True})
        try:
            self.open(self.folder / 'index.html')
            self.assertLessEqual(self.browser.execute_script('return document.documentElement.scrollWidth'), 390)
            small = self.browser.execute_script("""
              return [...document.querySelectorAll('button, select, input[type=range], .line')]
                .filter((e) => e.offsetParent && Math.min(e.offsetHeight, e.offsetWidth) < 40).map((e) => e.outerHTML)""")
            self.assertEqual(small, [], 'fingers need room')
        finally:
            self.browser.execute_cdp_cmd('Emulation.clearDeviceMetricsOverride', {})


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1] + sys.argv[5:], verbosity=2)
