"""A picture made small enough to keep in the notebook: turned upright, nothing but the picture itself.

Needs pillow (the extra `pictures`), and only here.
"""

import io
import warnings
from pathlib import Path
from typing import TYPE_CHECKING

from footlight.errors import FootlightError, InputError

if TYPE_CHECKING:
    from PIL.Image import Image as Picture

LONGEST_PX = 1600
MOST_BYTES = 400 * 1024
MEDIA = "image/jpeg"
# A scan of 8x10 at 1200 ppi has 115 million; one that claims more would fill the memory.
MOST_PIXELS = 160_000_000
_FORMATS = ("PNG", "JPEG", "TIFF")
_QUALITIES = (88, 80, 70, 60, 45)


def small(path: Path) -> bytes:
    """The picture in a file as a JPEG of at most `LONGEST_PX` a side and `MOST_BYTES`, without metadata.

    Raises InputError, one line, for what is no PNG, JPEG or TIFF, is damaged, or is too large to open.
    """
    try:
        from PIL import Image
    except ImportError as error:
        raise FootlightError("pictures need one more package: pip install 'footlight[pictures]'") from error
    with warnings.catch_warnings():
        # The size is judged below, by our own limit.
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        try:
            with Image.open(path, formats=_FORMATS) as opened:
                _refuse_huge(path, opened)
                return _fitted(path, _upright(opened))
        except Image.DecompressionBombError as error:
            raise _huge(path, "too many") from error
        except FileNotFoundError as error:
            raise InputError(f"{path}: there is no such file") from error
        except Image.UnidentifiedImageError as error:
            raise InputError(f"{path}: no picture; PNG, JPEG and TIFF are taken") from error
        except (OSError, SyntaxError, ValueError, EOFError) as error:
            # Pillow raises each of these for one or another kind of damaged file.
            raise InputError(f"{path}: cannot be read as a picture ({error})") from error


def _refuse_huge(path: Path, picture: "Picture") -> None:
    pixels = picture.width * picture.height
    if pixels > MOST_PIXELS:
        raise _huge(path, f"{pixels / 1e6:.0f} million")


def _huge(path: Path, pixels: str) -> InputError:
    return InputError(
        f"{path}: {pixels} pixels, allowed are {MOST_PIXELS / 1e6:.0f} million; scan it at fewer ppi"
    )


def _upright(opened: "Picture") -> "Picture":
    """Small, as the camera was held, grey or sRGB, on white where it is transparent."""
    from PIL import Image, ImageOps

    # JPEG alone: decodes at a half, a quarter ... of the size, which saves time and memory.
    opened.draft(None, (LONGEST_PX, LONGEST_PX))
    picture = ImageOps.exif_transpose(opened)
    if picture.mode.startswith("I"):
        # 16 bits a pixel; converting would clip at 255.
        picture = picture.convert("I").point(lambda level: level * (1 / 257)).convert("L")
    if picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info:
        over = picture.convert("RGBA")
        picture = Image.alpha_composite(Image.new("RGBA", over.size, "white"), over)
    grey = picture.mode in ("1", "L", "LA")
    picture = picture.convert("L" if grey else "RGB")
    picture.thumbnail((LONGEST_PX, LONGEST_PX), Image.Resampling.LANCZOS)
    return picture


def _fitted(path: Path, picture: "Picture") -> bytes:
    from PIL import Image

    while max(picture.size) > 200:
        for quality in _QUALITIES:
            made = io.BytesIO()
            picture.save(made, "JPEG", quality=quality, optimize=True)
            if made.tell() <= MOST_BYTES:
                return made.getvalue()
        # Noise that no quality makes small.
        picture = picture.resize(
            (max(1, picture.width * 3 // 4), max(1, picture.height * 3 // 4)), Image.Resampling.LANCZOS
        )
    made = io.BytesIO()
    picture.save(made, "JPEG", quality=_QUALITIES[0], optimize=True)
    return made.getvalue()
