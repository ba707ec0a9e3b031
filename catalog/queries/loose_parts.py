"""Which parts are loose: what is fitted needs neither a tag nor a place of its own."""

from django.db.models import Exists, OuterRef

from catalog.models import Fitting

IS_FITTED = Exists(Fitting.objects.filter(part=OuterRef("pk"), state=Fitting.State.FITTED))
