#!/usr/bin/env python3
"""Models of shipped layouts, by the glTF validator of those who publish the format (npm: gltf-validator): no error, no
warning. Skips where node or the validator is missing: `npm install --prefix FOLDER gltf-validator`, and FOLDER in
GLTF_VALIDATOR.

validator_test.py PROGRAM SCENES
"""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

PROGRAM, SCENES = sys.argv[1], pathlib.Path(sys.argv[2])
CHECK = '''
const validator = require('gltf-validator');
validator.validateBytes(new Uint8Array(require('fs').readFileSync(process.argv[2])))
  .then(report => console.log(JSON.stringify(report)));
'''


def main():
    node, folder = shutil.which('node'), os.environ.get('GLTF_VALIDATOR', '')
    modules = pathlib.Path(folder or '/usr/local/lib') / 'node_modules'
    if node is None or not (modules / 'gltf-validator').is_dir():
        print('no node, or no gltf-validator in', modules)
        return 77
    with tempfile.TemporaryDirectory() as where:
        check = pathlib.Path(where) / 'check.js'
        check.write_text(CHECK)
        for scene, detail in (('kelp', '0.2'), ('kelp', '0'), ('opus-sampler', '1')):
            subprocess.run([PROGRAM, 'model', SCENES / f'{scene}.yaml', '--detail', detail, '--into', where], check=True,
                           capture_output=True)
            glb = pathlib.Path(where) / scene / 'model.glb'
            out = subprocess.run([node, check, glb], check=True, capture_output=True, text=True,
                                 env={**os.environ, 'NODE_PATH': str(modules)})
            report = json.loads(out.stdout)
            issues, said = report['issues'], json.loads(glb.with_suffix('.json').read_text())
            print(scene, detail, {k: v for k, v in issues.items() if k != 'messages'})
            if issues['numErrors'] or issues['numWarnings'] or issues['numInfos'] or issues['numHints']:
                print(json.dumps(issues['messages'][:5], indent=1))
                return 1
            if report['info']['totalTriangleCount'] != said['triangles'] or glb.stat().st_size != said['bytes']:
                print('counts differ from model.json')
                return 1
    return 0


sys.exit(main())
