# The commands of the project. `make help` lists them.

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
.DEFAULT_GOAL := help
.DELETE_ON_ERROR:
MAKEFLAGS += --no-builtin-rules --no-print-directory

export PORT ?= 8000

PYTHON := .venv/bin/python
MANAGE := $(PYTHON) manage.py
TEMPLATES = $$(find templates -name '*.html')
# The demonstration never touches a database or folder that the environment names.
DEMO := env -u DATABASE_URL -u MEDIA_ROOT -u STATIC_ROOT DEVELOPMENT=1 DEBUG=0
INSTALL := $(PYTHON) -m pip install --quiet --disable-pip-version-check --retries 10 --require-hashes

PRINTING_PACKAGES := libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 fonts-dejavu-core
# Playwright's driver is linked with libatomic, which a bare Debian lacks.
TESTING_PACKAGES := $(PRINTING_PACKAGES) chromium libatomic1 poppler-utils

.PHONY: help demo demo-reset test checks bench format lock screenshots printing-packages testing-packages

help: ## List these commands.
	@awk -F ':.*## ' '/^[a-z-]+:.*## / { printf "make %-12s %s\n", $$1, $$2 }' Makefile

demo: var/static.stamp var/demonstration.txt ## Set up and serve the demonstration, here and to the local network.
	@$(DEMO) .ci/demo

demo-reset: ## Throw away the demonstration's data and load it afresh.
	@.ci/demo stop
	@rm -rf var/catalog.sqlite3* var/media var/demonstration.txt
	@$(MAKE) var/demonstration.txt

test: .venv/testing.stamp ## Set up and run everything that must pass.
	@$(MAKE) checks
	$(PYTHON) -m pytest --numprocesses 2 --dist loadgroup --cov --cov-fail-under 95 --cov-report term:skip-covered

checks: .venv/testing.stamp ## Format, lint, types, templates, migrations, deployment, static files.
	.venv/bin/ruff format --check --quiet .
	.venv/bin/ruff check --quiet .
	.venv/bin/mypy --no-error-summary manage.py restoration catalog tests
	.venv/bin/djade --check $(TEMPLATES)
	.venv/bin/djlint --lint --quiet templates
	$(MANAGE) makemigrations --check --dry-run
	.ci/check-deployment

bench: .venv/testing.stamp ## Measure speed on a generated collection.
	.ci/bench

format: .venv/testing.stamp ## Format Python and templates.
	.venv/bin/ruff check --fix --quiet .
	.venv/bin/ruff format --quiet .
	.venv/bin/djade $(TEMPLATES)

screenshots: .venv/testing.stamp ## Take the pictures of the guide again.
	$(PYTHON) -m pytest tests/browser/screenshots.py

lock: .venv/testing.stamp ## Choose exact versions of everything that pyproject.toml names.
	.ci/lock

printing-packages:
	@.ci/system-packages $(PRINTING_PACKAGES)

testing-packages:
	@.ci/system-packages $(TESTING_PACKAGES)

# The files below say what has been done, so that nothing is done twice.

$(PYTHON): | printing-packages
	@.ci/virtual-environment

.venv/serving.stamp: requirements.txt | printing-packages $(PYTHON)
	@echo "Installing requirements.txt"
	@$(INSTALL) --requirement requirements.txt
	@touch $@

.venv/testing.stamp: requirements-dev.txt | testing-packages $(PYTHON)
	@echo "Installing requirements-dev.txt"
	@$(INSTALL) --requirement requirements-dev.txt
	@touch .venv/serving.stamp $@

var/static.stamp: .venv/serving.stamp catalog/staticfiles.py $(shell find static)
	@echo "Gathering static files" && mkdir -p var
	@$(DEMO) $(MANAGE) collectstatic --no-input --clear --verbosity 0
	@touch $@

var/demonstration.txt: .venv/serving.stamp $(shell find catalog/migrations fixtures -name __pycache__ -prune -o -print)
	@echo "Loading the demonstration" && mkdir -p var
	@$(DEMO) $(MANAGE) migrate --verbosity 0
	@$(DEMO) $(MANAGE) load_demonstration > $@
